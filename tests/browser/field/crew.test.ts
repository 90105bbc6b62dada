import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Edition, editionHash, type WalkLine } from '../../../engine/walk/index.ts';
import { startServer } from '../../../shared/crew/serve.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';
import { storedRows } from './stored-rows.ts';

let hub: OwnedHub;
let server: OwnedHub['server'];
let owner: HubClient;
let phone: Phone;
let field: FieldDriver;

beforeAll(async () => {
  hub = await ownedHub();
  ({ server, owner } = hub);
  phone = await Phone.make();
  field = new FieldDriver(await phone.on(), server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await hub?.stop();
});

const crewLine = (page: Page) => page.locator('.crew-line');

async function invited(): Promise<string> {
  const [made] = good(await owner.invite({ role: 'tech' })).codes;
  if (!made) throw new Error('no code');
  return made.code;
}

/** Every line that is stored on the phone, by its walk. */
async function storedWalks(page: Page): Promise<Readonly<Record<string, readonly WalkLine[]>>> {
  const walks: Record<string, WalkLine[]> = {};
  for (const line of await storedRows<WalkLine>(page, 'lines')) {
    walks[line.walk] ??= [];
    walks[line.walk]?.push(line);
  }
  return walks;
}

async function toStart(): Promise<void> {
  await field.page.evaluate(() => {
    location.hash = '#/';
  });
  await field.page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor();
}

/** Opens a call from the start screen that stands there, without asking the service for the page again. */
async function openCall(tree: string, site: string): Promise<void> {
  await field.page.locator('.tree-line', { hasText: tree }).click();
  await field.page.getByLabel('Site').fill(site);
  await field.page.getByRole('button', { name: 'Open the call' }).click();
  await field.page.locator('.walk').waitFor();
}

async function joinWith(code: string, name: string): Promise<void> {
  const { page } = field;
  await page.goto(`${server.url}/field/#/join/${code}`);
  await page.getByRole('heading', { name: 'Join the crew' }).waitFor();
  await page.getByLabel('Your name in the crew').fill(name);
  await page.getByLabel('What to call this device').fill('Van 3 phone');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
}

/** A published edition with another title, which is another edition. */
async function retitled(title: string): Promise<{ hash: string; edition: Edition }> {
  const list = good(await owner.editions()).list?.entries ?? [];
  const entry = list.find(({ title }) => title.startsWith(FLAGSHIP));
  if (!entry) throw new Error('no flagship');
  const edition = structuredClone(good(await owner.edition(entry.hash)));
  const root = edition.trees[edition.root];
  if (root) root.title = title;
  return { hash: editionHash(edition), edition };
}

// Steps of one story: each goes on where the one before left it.
test('before joining, nothing of a crew shows and a call is opened as ever', async () => {
  await field.openCall(FLAGSHIP, 'Elm Street 12');
  await field.start();
  await toStart();
  await expect.poll(() => crewLine(field.page).count()).toBe(0);
});

test('a mistyped code is told in words, and nothing is lost', async () => {
  await joinWith('AAAAA-AAAAA-AAAAA-AAAAA', 'R. Alder');
  await field.page.getByRole('alert').getByText('The code does not hold').waitFor();
  await expect.poll(() => field.page.getByLabel('Your name in the crew').inputValue()).toBe('R. Alder');
});

test('an invitation’s link joins; its code leaves the address bar; the call from before is sent', async () => {
  const { page } = field;
  const code = await invited();
  await page.goto(`${server.url}/field/#/join/${code}`);
  await expect.poll(() => page.url()).toBe(`${server.url}/field/#/join`);
  await expect.poll(() => page.getByLabel('Code of the invitation').inputValue()).toBe(code);
  await page.getByLabel('Your name in the crew').fill('');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.getByRole('alert').getByText('The crew needs a name').waitFor();
  await page.getByLabel('Your name in the crew').fill('R. Alder');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await crewLine(page).getByText('R. Alder, tech').waitFor();
  await crewLine(page).getByText('All sent to the crew').waitFor();
  await expect.poll(() => page.locator('.tree-line', { hasText: FLAGSHIP }).count()).toBe(1);
  expect(good(await owner.walks()).walks).toMatchObject([{ site: 'Elm Street 12', personName: 'R. Alder' }]);
});

test('a call walked without a signal arrives once the signal is back: every entry, once', async () => {
  const { page } = field;
  await phone.context.setOffline(true);
  await openCall(FLAGSHIP, 'Oak Lane 3');
  await field.start();
  await field.walkTo('Coil open', TO_COIL_OPEN);
  await field.closeFixed('water runs');
  await toStart();
  const waiting = crewLine(page).getByText(/^\d+ entries waiting since \d/);
  await waiting.waitFor();
  const here = await storedWalks(page);
  const offline = Object.values(here).find(([first]) => first?.event.type === 'opened' && first.event.site === 'Oak Lane 3') ?? [];
  expect(offline.length).toBeGreaterThan(15);
  await expect.poll(async () => Number(/\d+/.exec((await waiting.textContent()) ?? '')?.[0])).toBe(offline.length);
  expect(good(await owner.walks()).walks.length).toBe(1);

  const before = await crewLine(page).boundingBox();
  await phone.context.setOffline(false);
  await crewLine(page).getByText('All sent to the crew').waitFor();
  await expect.poll(() => crewLine(page).boundingBox()).toEqual(before);
  for (const [walk, lines] of Object.entries(await storedWalks(page))) {
    const arrived = good(await owner.walkLines(walk));
    expect(arrived.lines).toEqual(lines);
    expect(arrived.aside).toEqual([]);
    expect(arrived.summary).toMatchObject({ length: lines.length, lines: lines.length, told: lines.length, flags: [] });
  }
});

test('a newer edition takes the place in the list; an open call stays on its own and is told', async () => {
  const { page } = field;
  const { hash, edition } = await retitled(`${FLAGSHIP}, second`);
  good(await owner.publish({ hash, edition, why: 'Title says more' }));
  await crewLine(page).click();
  await page.getByRole('button', { name: 'Try now' }).click();
  await page.getByRole('button', { name: 'Close' }).click();
  await page.locator('.tree-line', { hasText: `${FLAGSHIP}, second` }).waitFor();
  await expect.poll(() => page.locator('.tree-line', { hasText: FLAGSHIP }).count()).toBe(1);

  await page.locator('.call-line-open').click();
  await page.locator('.walk-notice', { hasText: 'newer edition' }).click();
  await page.getByText('by M. Birch: Title says more').waitFor();
  await page.getByText('stays on the edition it was opened on').waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  const [open] = (await storedWalks(page))[(/walk\/(.+)$/.exec(page.url()) ?? [])[1] ?? ''] ?? [];
  expect(open?.edition).not.toBe(hash);
  // The line stays under the finger that read it and is gone with the next step.
  await expect.poll(() => page.locator('.walk-notice').count()).toBe(1);
  await field.step(TO_COIL_OPEN);
  await page.locator('.walk-notice').waitFor({ state: 'detached' });
});

test('an edition that was taken back is told on the call that stands on it, with its reason', async () => {
  const { page } = field;
  await toStart();
  await openCall(`${FLAGSHIP}, second`, 'Ash Road 7');
  await field.start();
  const [entry] = (good(await owner.editions()).list?.entries ?? []).filter(({ from }) => from === 'crew');
  good(await owner.withdraw(entry?.hash ?? '', 'A band is too wide'));
  await toStart();
  await crewLine(page).click();
  await page.getByRole('button', { name: 'Try now' }).click();
  await page.getByRole('button', { name: 'Close' }).click();
  await page.locator('.tree-line', { hasText: `${FLAGSHIP}, second` }).waitFor({ state: 'detached' });
  await page.getByRole('link', { name: /Ash Road 7/ }).click();
  const before = await field.standing();
  await page.locator('.walk-notice', { hasText: 'taken back' }).click();
  await page.getByText('M. Birch took this edition back: A band is too wide').waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  await expect.poll(() => field.standing()).toBe(before);
});

test.each(['light', 'dark'] as const)('what shows of the crew is accessible, %s', async (colorScheme) => {
  const { page } = field;
  // WCAG 2.2 level A and AA, by the rules of axe-core.
  const standards = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const violations = async () =>
    (await new AxeBuilder({ page }).withTags(standards).analyze()).violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`);
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await page.locator('.walk-notice').waitFor();
  expect(await violations()).toEqual([]);
  await toStart();
  expect(await violations()).toEqual([]);
  await crewLine(page).click();
  await page.getByRole('button', { name: 'Leave the crew…' }).click();
  expect(await violations()).toEqual([]);
  await page.getByRole('button', { name: 'Close' }).click();
  await page.goto(`${server.url}/field/#/join`);
  await page.getByRole('heading', { name: 'Join the crew' }).waitFor();
  expect(await violations()).toEqual([]);
  await toStart();
  await page.getByRole('link', { name: /Ash Road 7/ }).click();
});

test('a device that was stopped says so, keeps everything, and sends it after joining again', async () => {
  const { page } = field;
  await toStart();
  const person = good(await owner.people()).people.find(({ name }) => name === 'R. Alder');
  for (const device of good(await owner.devices(person?.id)).devices) good(await owner.stopDevice(device.id));
  await page.getByRole('link', { name: /Ash Road 7/ }).click();
  await field.step(TO_COIL_OPEN);
  await toStart();
  await crewLine(page)
    .getByText(/^Out of the crew\. \d+ entr(y|ies) kept here/)
    .waitFor();
  await crewLine(page).click();
  await page.getByText('This device was taken out of the crew.').waitFor();
  await page.getByRole('link', { name: 'Join again' }).click();
  await joinWith(await invited(), 'R. Alder');
  await crewLine(page).getByText('All sent to the crew').waitFor();
  for (const [walk, lines] of Object.entries(await storedWalks(page))) expect(good(await owner.walkLines(walk)).lines).toEqual(lines);
});

test('leaving needs the hub, then brings the shipped list back and keeps every call', async () => {
  const { page } = field;
  const before = await storedWalks(page);
  await phone.context.setOffline(true);
  await crewLine(page).click();
  await page.getByRole('button', { name: 'Leave the crew…' }).click();
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await page.getByText('The hub could not be told.').waitFor();
  await phone.context.setOffline(false);
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await crewLine(page).waitFor({ state: 'detached' });
  await page.locator('.tree-line', { hasText: FLAGSHIP }).waitFor();
  expect(await storedWalks(page)).toEqual(before);
});

test('where there is no hub, the link says so', async () => {
  const alone = await startServer({ port: 0, host: '127.0.0.1' });
  try {
    await field.page.goto(`${alone.url}/field/#/join/AAAAA-AAAAA`);
    await field.page.getByRole('heading', { name: 'There is no hub at this address.' }).waitFor();
  } finally {
    await alone.close();
  }
});
