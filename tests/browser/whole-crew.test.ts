import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { CrewDriver, type Desk } from './desk/crew-driver.ts';
import { seriousIn, storedText } from './desk/desk-driver.ts';
import { FieldDriver } from './field/field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './field/flagship-paths.ts';
import { Phone } from './field/phone.ts';

/** How long a tree may take to be proved, ms, on a machine that proves another at the same time. */
const PROVING = 200_000;

// Every tree that is published is proved first, and what comes before and after takes its time as well.
vi.setConfig({ testTimeout: PROVING + 300_000 });

let crew: CrewDriver;
let owner: Desk;
let senior: Desk;
let phone: Phone;
let field: FieldDriver;

beforeAll(async () => {
  crew = await CrewDriver.start();
  owner = await crew.desk();
  senior = await crew.desk();
  phone = await Phone.make();
  field = new FieldDriver(await phone.on(), crew.server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await crew?.stop();
});

const TREE = 'no-water-at-the-pad';
/** Of two that publish at the same time: quick to prove, so that the test is about publishing. */
const BOTH = 'condensate-or-float-switch-holds-off';
const STEP = 'call-past-the-float';

/** Changes the minutes of a step by its form, and waits until the desk has it on its disk. */
async function changeMinutes({ page, url }: Desk, tree: string, step: string, minutes: string): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${url}/desk/#/tree/${tree}/edit/${step}`);
  await page.getByRole('form', { name: /^Step: / }).waitFor();
  await page.getByLabel('Minutes').fill(minutes);
  await expect.poll(() => storedText(page, `${tree}.tree.mdx`)).toContain(`minutes={${minutes}}`);
}

/** Opens the tree's publishing page and waits until it is proved. */
async function openPublish({ page, url }: Desk, tree: string): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${url}/desk/#/tree/${tree}/publish`);
  await page.getByRole('heading', { name: /^(Who and why|Nothing has changed)$/ }).waitFor({ timeout: PROVING });
}

async function sayWhy(page: Page, why: string): Promise<void> {
  for (const reason of await page.getByLabel(/can stand$/).all()) await reason.fill('The crew knows of it.');
  await page.getByLabel('Why', { exact: true }).fill(why);
}

const toCrew = (page: Page) => page.getByRole('button', { name: 'Publish to the crew' });

const history = (page: Page) => page.locator('.editions', { has: page.getByRole('heading', { name: 'The crew’s editions' }) });

const told = (page: Page, text: string | RegExp) => page.locator('.publish-told', { hasText: text });

// Steps of one story: each goes on where the one before left it.
test('the owner joins on a desk and invites a senior tech and a tech', async () => {
  await owner.join(crew.link, 'M. Birch', 'Office laptop');
  await senior.join(await owner.invite('Senior tech', 'K. Rowan', 'desk'), 'K. Rowan', 'Evening laptop');
  await senior.page.getByText('K. Rowan, senior tech').waitFor();
  const link = await owner.invite('Tech', 'R. Alder', 'phone');
  await field.openStart();
  // The start screen knows of the hub, and leads to joining by hand too.
  await field.page.getByRole('link', { name: 'Join the crew' }).waitFor();
  await field.page.goto(link);
  await field.page.getByLabel('Your name in the crew').fill('R. Alder');
  await field.page.getByRole('button', { name: 'Join', exact: true }).click();
  await field.page.locator('.crew-line').getByText('R. Alder, tech').waitFor();
});

test('what the senior tech publishes to the crew comes onto the phone', async () => {
  const { page, url } = senior;
  await page.goto(`${url}/desk/#/tree/${TREE}/edit`);
  await page.getByRole('button', { name: 'Tree and opening' }).click();
  await page.getByLabel('Title of the tree').fill('No water at the pad, as the crew walks it');
  await expect.poll(() => storedText(page, `${TREE}.tree.mdx`)).toContain('as the crew walks it');
  await openPublish(senior, TREE);
  await history(page).getByText('Nobody has published this tree to the crew.').waitFor();
  await toCrew(page).click();
  await page.getByRole('alert').getByText('Say why: what it is for').waitFor();
  await sayWhy(page, 'Our own title');
  expect(await seriousIn(page)).toEqual([]);
  await toCrew(page).click();
  await told(page, 'Published to the crew as number 1.').waitFor();
  await page.getByRole('heading', { name: 'Nothing has changed' }).waitFor();
  const first = history(page).locator('.edition');
  await expect.poll(() => first.textContent()).toMatch(/Number 1 by K\. Rowan.*walked now.*Our own title/);
  await expect.poll(() => first.textContent()).toContain('The title was “No water at the pad”.');

  await field.page.locator('.crew-line').click();
  await field.page.getByRole('button', { name: 'Try now' }).click();
  await field.page.getByRole('button', { name: 'Close', exact: true }).click();
  await field.page.locator('.tree-line', { hasText: 'as the crew walks it' }).waitFor();
});

test('walked without a signal to the end, it is on the hub once the signal is back, and the trainer’s desk sees it', async () => {
  const { page } = field;
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await phone.context.setOffline(true);
  await page.locator('.tree-line', { hasText: FLAGSHIP }).click();
  await page.getByLabel('Site').fill('Oak Lane 3');
  await page.getByRole('button', { name: 'Open the call' }).click();
  await page.locator('.walk').waitFor();
  await field.start();
  await field.walkTo('Coil open', TO_COIL_OPEN);
  await field.closeFixed('water runs');
  await page.evaluate(() => {
    location.hash = '#/';
  });
  await page
    .locator('.crew-line')
    .getByText(/entries waiting/)
    .waitFor();
  await phone.context.setOffline(false);
  await page.locator('.crew-line').getByText('All sent to the crew').waitFor();

  // The desk's cookie alone shows what the hub has.
  const seen = await owner.page.evaluate(async () => {
    const answer = await fetch('/crew/walks');
    return (await answer.json()) as { walks: { site: string; personName: string; closed: boolean; finding: string; flags: string[] }[] };
  });
  expect(seen.walks).toMatchObject([{ site: 'Oak Lane 3', personName: 'R. Alder', closed: true, flags: [] }]);
});

test('of two who publish the same tree, the second is shown the first’s, loses nothing, and goes after it on purpose', async () => {
  await changeMinutes(senior, BOTH, STEP, '4');
  await changeMinutes(owner, BOTH, STEP, '7');
  await Promise.all([openPublish(senior, BOTH), openPublish(owner, BOTH)]);
  await sayWhy(senior.page, 'Quicker by hand');
  await sayWhy(owner.page, 'It takes longer on a roof');
  await toCrew(senior.page).click();
  await told(senior.page, 'number 1').waitFor();

  const { page } = owner;
  await toCrew(page).click();
  const both = page.locator('.overtaken');
  await both.getByText(/^Theirs: number 1, by K\. Rowan/).waitFor();
  await both.getByText('Quicker by hand').waitFor();
  // What each changed since what both were made from, and what lies between them.
  await expect.poll(() => both.locator('.overtaken-both').textContent()).toContain('4 min, was');
  await expect.poll(() => both.locator('.overtaken-both').textContent()).toContain('7 min, was');
  await expect.poll(() => both.textContent()).toContain('7 min, was 4');
  expect(await seriousIn(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await seriousIn(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
  await expect.poll(() => toCrew(page).isDisabled()).toBe(true);
  await expect.poll(() => history(page).locator('.edition').count()).toBe(1);
  await expect.poll(() => page.locator('.publish-form textarea').inputValue()).toBe('It takes longer on a roof');

  await page.getByRole('button', { name: 'Mine goes after theirs' }).click();
  await both.waitFor({ state: 'detached' });
  await expect.poll(() => page.locator('.publish-form .publish-changes').first().textContent()).toContain('7 min, was 4');
  // The history has the new one before the hub is asked for it again, and what this desk has just published is not shown as another's.
  let answer = (): void => undefined;
  const held = new Promise<void>((resolve) => {
    answer = resolve;
  });
  await page.route('**/crew/trees/*/publications', (route) => held.then(() => route.continue()));
  await toCrew(page).click();
  await told(page, 'number 2').waitFor();
  await history(page).locator('.edition').nth(1).waitFor();
  await expect.poll(() => both.count()).toBe(0);
  answer();
  await expect.poll(() => history(page).locator('.edition').allTextContents()).toHaveLength(2);
  await expect.poll(() => history(page).locator('.edition').first().textContent()).toMatch(/Number 2 by M\. Birch.*It takes longer on a roof/);
});

test('an edition is taken back with its reason; the one before is walked again', async () => {
  const { page } = owner;
  await page.getByRole('button', { name: 'Take back number 2' }).click();
  await page.getByRole('button', { name: 'Take number 2 back' }).click();
  await expect.poll(() => history(page).locator('.edition-back').count()).toBe(0);
  await page.getByLabel('Why it is taken back').fill('Nobody is on a roof there');
  expect(await seriousIn(page)).toEqual([]);
  await page.getByLabel('Why it is taken back').press('Tab');
  await page.locator('.take-back').getByRole('button', { name: 'Take number 2 back' }).click();
  await told(page, 'Number 2 was taken back').waitFor();
  await told(page, /The crew walks number 1, by K\. Rowan/).waitFor();
  await history(page).getByText('Taken back by M. Birch').waitFor();
});

// One desk proves after the other.
test('who published first takes the other’s onto the desk, in a step that undo takes back', { timeout: 2 * PROVING + 300_000 }, async () => {
  await changeMinutes(owner, BOTH, STEP, '9');
  await openPublish(owner, BOTH);
  await sayWhy(owner.page, 'Third try');
  await toCrew(owner.page).click();
  await told(owner.page, 'number 3').waitFor();

  const { page } = senior;
  await openPublish(senior, BOTH);
  const both = page.locator('.overtaken');
  await both.getByText(/^Theirs: number 3, by M\. Birch/).waitFor();
  await page.getByRole('button', { name: 'Put theirs on this desk…' }).click();
  await page.getByRole('button', { name: 'Put theirs here' }).click();
  await both.waitFor({ state: 'detached' });
  await page.goto(`${senior.url}/desk/#/tree/${BOTH}/edit/${STEP}`);
  await expect.poll(() => page.getByLabel('Minutes').inputValue()).toBe('9');
  await page.keyboard.press('Control+z');
  await expect.poll(() => page.getByLabel('Minutes').inputValue()).toBe('4');
});

test('a tech’s desk reads the crew’s history, publishes in its own browser alone, and takes nothing back', async () => {
  const tech = await crew.desk();
  await tech.join(await owner.invite('Tech', 'L. Aspen', 'desk'), 'L. Aspen', 'Van laptop');
  const { page } = tech;
  await openPublish(tech, BOTH);
  await expect.poll(() => history(page).locator('.edition').count()).toBe(3);
  await expect.poll(() => toCrew(page).count()).toBe(0);
  await expect.poll(() => page.getByRole('button', { name: /^Take back/ }).count()).toBe(0);
  await page.getByRole('button', { name: 'Read number 3 of the crew' }).click();
  await page.locator('.edition-text').first().waitFor();
  await expect.poll(() => page.locator('.edition-text').first().textContent()).toContain('complaint:');
});
