import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { DeskDriver, seriousIn } from './desk-driver.ts';

const FLAGSHIP = 'no-water-at-the-pad';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterAll(() => desk.stop());
afterEach(() => desk.endTest());

const tried = (page: Page) => page.getByRole('region', { name: 'Try it' });
const next = (page: Page) => tried(page).locator('[data-next]');
const heading = (page: Page) => tried(page).locator('.try-step h3');
const trail = (page: Page) => page.getByRole('region', { name: 'The way so far' }).getByRole('listitem');
/** The keyboard stands on what comes next. */
const hasKeyboard = (page: Page): Promise<void> =>
  expect.poll(async () => (await next(page).count()) > 0 && (await next(page).evaluate((button) => button === document.activeElement))).toBe(true);
const choose = (page: Page, fault: string) => tried(page).getByLabel('Wrong in it').selectOption(fault);

test('from the beginning, the bench leads to the right finding, by the keyboard alone, and graph and form go along', async () => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/edit`);
  await page.getByRole('button', { name: 'Try it' }).click();
  await expect.poll(() => heading(page).textContent()).toBe('Water at the pad');
  await choose(page, 'coil-open');
  await expect.poll(() => next(page).textContent()).toBe('Seen: pad dry');
  await next(page).focus();
  for (let press = 0; press < 60 && (await page.getByText('Right finding.').count()) === 0; press += 1) {
    await hasKeyboard(page);
    const before = await tried(page).textContent();
    await page.keyboard.press('Enter');
    await expect.poll(() => tried(page).textContent()).not.toBe(before);
  }
  await page.getByText('“Coil open” names coil-open, and nothing else.').waitFor();
  await expect.poll(() => trail(page).count()).toBe(14);
  // The circuit as it stands: the fault is marked, and what is lifted and turned is to be put back.
  await expect.poll(() => tried(page).getByRole('img').first().getAttribute('aria-label')).toBeTruthy();
  await page.getByRole('heading', { name: 'Put back: 2' }).waitFor();
  // Through the repair, the put-back list and the recheck, to the close of the call.
  for (let press = 0; press < 20 && (await page.getByText('the complaint is gone').count()) === 0; press += 1) {
    await hasKeyboard(page);
    const before = await tried(page).textContent();
    await page.keyboard.press('Enter');
    await expect.poll(() => tried(page).textContent()).not.toBe(before);
  }
  await page.getByRole('heading', { name: 'Put back: nothing' }).waitFor();
  // A step of the trail is selected everywhere.
  await page.getByRole('button', { name: 'Volts at the valve', exact: true }).first().click();
  await page.getByRole('form', { name: 'Step: Volts at the valve' }).waitFor();
});

test('from a step in the middle it begins where the bench leads, or says that it does not lead there', async () => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/try/coil-resistance`);
  await choose(page, 'coil-open');
  await tried(page).getByText('At “Coil resistance”, by the shortest way the bench leads there: 12 steps').waitFor();
  await tried(page).locator('.try-meter').getByText('OL').waitFor();
  await choose(page, 'cock-shut');
  await tried(page).getByText('No walk with cock-shut on own-transformer comes to “Coil resistance”.').waitFor();
  // Points that are not proved dead are refused, as on a walk; as the author sets the circuit, they are not.
  await next(page).click();
  await expect.poll(() => next(page).textContent()).toMatch(/^Enter/);
  await next(page).click();
  await tried(page).getByRole('alert').getByText('Not taken.').waitFor();
  await tried(page).getByLabel('main-power').selectOption('off');
  await tried(page).getByLabel('Its two points proved dead').check();
  await tried(page).getByLabel('Lead coil-hot lifted').check();
  await expect.poll(() => next(page).textContent()).toBe('Enter 30.0 Ω');
  await next(page).click();
  await tried(page).getByText('leads to “Valve stuck”').waitFor();
});

test('another value than the bench shows takes another way, and what is no value is refused', async () => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/try/power-at-r-and-c`);
  await choose(page, 'coil-open');
  await expect.poll(() => next(page).textContent()).toBe('Enter 26.9 V');
  const field = tried(page).getByLabel('Or type another value');
  await field.fill('lots');
  await field.press('Enter');
  await tried(page).getByRole('alert').getByText('“lots” is not a number').waitFor();
  await expect.poll(() => field.inputValue()).toBe('lots');
  await field.fill('3.1');
  await field.press('Enter');
  await tried(page).getByText('leads to “Where the 24 V comes from”').waitFor();
  await tried(page).getByRole('button', { name: 'Follow the bench to the end' }).click();
  await tried(page)
    .getByText(/Wrong finding\.|Not found\.|Not taken\./)
    .waitFor();
  // Taken back, the bench is followed again.
  while ((await heading(page).textContent()) !== 'Power at R and C' || (await next(page).textContent()) !== 'Enter 26.9 V') {
    const before = await tried(page).textContent();
    await tried(page).getByRole('button', { name: 'Take back' }).click();
    await expect.poll(() => tried(page).textContent()).not.toBe(before);
  }
});

test('a fact of the house that is set is what the meter shows', async () => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/try/power-at-r-and-c`);
  await choose(page, 'coil-open');
  await expect.poll(() => next(page).textContent()).toBe('Enter 26.9 V');
  await tried(page).getByText('The house: as usual').click();
  await tried(page).getByLabel('Line voltage at the unit').fill('110 V');
  await tried(page).getByText('1 fact not as usual').waitFor();
  // The secondary is in proportion to the line: 26.9 V × 110/120.
  await expect.poll(() => next(page).textContent()).toMatch(/^Enter 24\.[67] V$/);
});

test('the text that is in the editor is what is tried: an error says so first, and put right it goes on from where it was', async () => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/try`);
  await choose(page, 'coil-open');
  await expect.poll(() => next(page).textContent()).toBe('Seen: pad dry');
  await next(page).click();
  // A press before the first one is answered is the first one again.
  await expect.poll(() => next(page).textContent()).not.toBe('Seen: pad dry');
  await next(page).click();
  await expect.poll(() => heading(page).textContent()).toBe('The control asks');
  await page.getByRole('form', { name: 'Step: The control asks' }).waitFor();
  await page.getByLabel('Way 1', { exact: true }).fill('a drop');
  await tried(page).getByText('a drop').first().waitFor();
  // A way that leads to a step that is gone is an error.
  await page.getByRole('combobox', { name: 'Find a step' }).fill('Supply cock');
  await page.getByRole('combobox', { name: 'Find a step' }).press('Enter');
  await page.getByRole('form', { name: 'Step: Supply cock' }).waitFor();
  await page.getByRole('button', { name: 'Remove', exact: true }).click();
  await tried(page)
    .getByText(/errors? first$/)
    .waitFor();
  await expect.poll(() => tried(page).textContent()).toContain('supply-cock');
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => next(page).textContent()).toBe('Seen: a drop');
  await expect.poll(() => trail(page).count()).toBe(2);
});

test.each(['light', 'dark'] as const)('the try has nothing serious for axe in the %s theme', async (colorScheme) => {
  const page = await desk.open(`#/tree/${FLAGSHIP}/try/coil-resistance`, { viewport: { width: 1440, height: 900 }, colorScheme });
  await choose(page, 'coil-open');
  await expect.poll(() => next(page).textContent()).toBe('Enter OL');
  expect(await seriousIn(page)).toEqual([]);
  await next(page).click();
  await expect.poll(() => next(page).textContent()).not.toBe('Enter OL');
  await tried(page).getByRole('button', { name: 'Follow the bench to the end' }).click();
  await page.getByText('Right finding.').waitFor();
  expect(await seriousIn(page)).toEqual([]);
  await choose(page, 'cock-shut');
  await tried(page).getByText('The circuit as it begins').waitFor();
  expect(await seriousIn(page)).toEqual([]);
});
