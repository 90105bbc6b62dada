import type { Browser, BrowserContextOptions, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { WalkableEdition } from '../../../engine/walk/index.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import { openBrowser } from '../browser.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { LAPTOP, seriousIn, storedText } from './desk-driver.ts';
import { coilOpenCall, flagshipEdition, upload } from './walks-crew.ts';

let hub: OwnedHub;
let server: OwnedHub['server'];
let browser: Browser;
let owner: HubClient;
let flagship: { readonly hash: string; readonly edition: unknown; readonly walkable: WalkableEdition };
let complaints: string[] = [];

beforeAll(async () => {
  hub = await ownedHub();
  ({ server, owner } = hub);
  flagship = await flagshipEdition(server.url);
  await upload(owner, coilOpenCall(flagship.walkable, 'quick', { by: 'Ada Ash', site: '3 Oak', day: 6, seconds: 20 }));
  await upload(owner, coilOpenCall(flagship.walkable, 'slow', { by: 'Bo Beech', site: '9 Elm', day: 7, seconds: 90 }));
  await upload(owner, coilOpenCall(flagship.walkable, 'open', { by: 'Bo Beech', site: '1 Fir', day: 8 }).slice(0, 12));
  browser = await openBrowser();
});
afterEach(async () => {
  await Promise.all(browser.contexts().map((context) => context.close()));
  const found = complaints;
  complaints = [];
  expect(found).toEqual([]);
});
afterAll(async () => {
  await browser?.close();
  await hub?.stop();
});

async function open(hash: string, options: BrowserContextOptions = LAPTOP): Promise<Page> {
  const page = await (await browser.newContext(options)).newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  await page.goto(`${server.url}/desk/${hash}`);
  return page;
}

/** A desk in the crew, opened at an address. */
async function trainer(hash: string, options?: BrowserContextOptions): Promise<Page> {
  const [made] = good(await owner.invite({ role: 'trainer' })).codes;
  const page = await open('#/guide', options);
  const status = await page.evaluate(async (code) => {
    const body = JSON.stringify({ code, name: 'T. Rowan', kind: 'desk', label: 'Laptop' });
    return (await fetch('/crew/join', { method: 'POST', headers: { 'content-type': 'application/json' }, body })).status;
  }, made?.code);
  expect(status).toBe(201);
  await page.goto(`${server.url}/desk/${hash}`);
  await page.reload();
  return page;
}

const line = (page: Page) => page.getByRole('slider', { name: /^Line/ });
const rows = (page: Page) => page.locator('.walk-table tbody tr');

test('a trainer filters the crew’s walks; the filter stands in the address', async () => {
  const page = await trainer('#/walks');
  await rows(page).nth(2).waitFor();
  await expect.poll(() => rows(page).first().textContent()).toContain('1 Fir');
  await page.getByLabel('Outcome').selectOption('fixed');
  await page.waitForFunction(() => document.querySelectorAll('.walk-table tbody tr').length === 2);
  await expect.poll(() => new URL(page.url()).hash).toBe('#/walks?outcome=fixed');
  await page.getByLabel('From').fill('2026-10-07');
  await page.waitForFunction(() => document.querySelectorAll('.walk-table tbody tr').length === 1);
  await expect.poll(() => rows(page).first().textContent()).toContain('Bo Beech');
  await page.reload();
  await page.waitForFunction(() => document.querySelectorAll('.walk-table tbody tr').length === 1);
  await page.getByLabel('Outcome').selectOption('handed-off');
  await page.getByRole('heading', { name: 'No walk is like that' }).waitFor();
  await page.getByRole('button', { name: 'Show all walks' }).click();
  await rows(page).nth(2).waitFor();
  expect(await seriousIn(page)).toEqual([]);
});

/** Whether the row of the line that is looked at can be seen in the list. */
function showsItsCurrent(list: HTMLElement | SVGElement): boolean {
  const row = list.querySelector('[aria-current]')?.getBoundingClientRect();
  const box = list.getBoundingClientRect();
  return row !== undefined && row.top >= box.top - 1 && row.bottom <= box.bottom + 1;
}

test('a call is replayed line by line with the keyboard, a measure leads to its line, and its finding is confirmed and taken back', async () => {
  const page = await trainer('#/walks/quick');
  await line(page).waitFor();
  await page.locator('.flow-slip').first().waitFor();
  // Before the first step nothing was walked.
  await expect.poll(() => page.locator('.flow-slip[data-marked]').count()).toBe(0);
  await line(page).focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => new URL(page.url()).hash).toBe('#/walks/quick?line=2');
  await page.keyboard.press('End');
  await expect.poll(() => line(page).getAttribute('aria-valuetext')).toContain('Closed the call');
  await expect.poll(() => page.locator('.flow-slip[data-marked]').count()).toBeGreaterThan(5);
  await expect.poll(() => page.locator('.walk-lines ol').evaluate(showsItsCurrent)).toBe(true);
  const read = page.locator('.walk-lines button', { hasText: 'Read 26.9 V' });
  await read.click();
  await page.locator('.walk-reading .band-scale').waitFor();
  await expect.poll(() => page.locator('.walk-reading').textContent()).toContain('26.9');
  await expect.poll(() => line(page).getAttribute('aria-valuetext')).toContain('Read 26.9');
  await page.locator('.walk-circuit svg').first().waitFor();
  await page.locator('.walk-shares li').first().waitFor();
  // The leads stand where the reading was taken.
  await expect.poll(() => page.locator('.walk-circuit').textContent()).toMatch(/red|black/i);
  await page.locator('.measure-list > li').first().waitFor();
  await expect.poll(() => page.locator('.measure-list').textContent()).toContain('Minutes');
  await page.locator('.measure-evidence button').first().click();
  const asked = await page.locator('.measure-evidence button').first().textContent();
  await expect.poll(() => new URL(page.url()).hash).toBe(`#/walks/quick?line=${asked?.replace('Line ', '')}`);
  expect(await seriousIn(page)).toEqual([]);

  await page.getByRole('button', { name: 'Keep this' }).click();
  await expect.poll(() => page.locator('.walk-confirm [role=alert]').textContent()).toContain('Choose first');
  await page.getByRole('radio', { name: /^It was another fault/ }).check();
  await page.getByLabel('Which fault it was').selectOption({ index: 2 });
  await page.getByLabel(/^Note/).fill('The plug was loose.');
  // Fetched again for what was said, the walk is not replayed anew: nothing on the page goes, and what is typed meanwhile stays.
  let answer = (): void => undefined;
  const held = new Promise<void>((resolve) => {
    answer = resolve;
  });
  await page.route('**/crew/walks/quick/lines**', (route) => held.then(() => route.continue()));
  await page.getByRole('button', { name: 'Keep this' }).click();
  await page.locator('.walk-said li').waitFor();
  await page.getByRole('button', { name: 'Keep this' }).waitFor();
  await page.getByLabel(/^Note/).fill('Half a no');
  const fetched = page.waitForResponse('**/crew/walks/quick/lines**');
  answer();
  await fetched;
  await expect.poll(() => page.locator('.walk-head').textContent()).toContain('it was');
  expect(await page.locator('.walk-replaying').count()).toBe(0);
  expect(await page.getByLabel(/^Note/).inputValue()).toBe('Half a no');
  await expect.poll(() => page.locator('.walk-said').textContent()).toMatch(/T\. Rowan.*It was another fault.*The plug was loose\./s);
  const told = good(await owner.confirmations('quick')).confirmations;
  expect(told[0]).toMatchObject({ held: false, note: 'The plug was loose.' });
  await page.getByRole('button', { name: 'Take back what was said' }).click();
  await page.locator('.walk-said li').nth(1).waitFor();
  expect(good(await owner.confirmations('quick')).confirmations[0]?.held).toBeUndefined();
  await page.getByRole('radio', { name: /^It held/ }).check();
  await page.getByRole('button', { name: 'Keep this' }).click();
  await page.locator('.walk-said li').nth(2).waitFor();
}, 300_000);

test('walks are reviewed together, with too few calls said to be too few', async () => {
  const page = await trainer('#/walks?outcome=fixed');
  await page.getByRole('button', { name: 'Review these walks together' }).click();
  await page.getByRole('heading', { name: '2 walks together' }).waitFor();
  await expect.poll(() => page.locator('.crew-person').count()).toBe(2);
  await expect.poll(() => page.locator('.crew-person').first().textContent()).toContain('Ada Ash');
  await expect.poll(() => page.locator('.crew-person').first().textContent()).toContain('too few calls to tell');
  await expect.poll(() => page.locator('.crew-measures').textContent()).toContain('Nothing beyond what chance makes');
  expect(await seriousIn(page)).toEqual([]);
});

test('the picture of a tree shows where walks go and what was learnt; learnt weights go into the bench and come back out', async () => {
  good(await owner.confirm('slow', { held: true, bench: 'own-transformer', fault: 'coil-open' }));
  const page = await trainer('#/tree/no-water-at-the-pad/crew');
  await page.locator('.flow-slip[data-marked]').first().waitFor();
  await page.locator('.picture-steps tbody tr').first().waitFor();
  await expect.poll(() => page.locator('.picture-spread').count()).toBeGreaterThan(3);
  await expect.poll(() => page.locator('main').textContent()).toContain('Fault weights of');
  expect(await seriousIn(page)).toEqual([]);
  await expect.poll(() => storedText(page, 'benches/own-transformer.bench.yaml')).toBeTruthy();
  const before = await storedText(page, 'benches/own-transformer.bench.yaml');
  const take = page.getByRole('button', { name: 'Take these weights into the bench' }).first();
  await take.click();
  const undo = page.getByRole('button', { name: /^Undo: Weights of/ }).first();
  await undo.waitFor();
  await expect.poll(() => storedText(page, 'benches/own-transformer.bench.yaml')).not.toBe(before);
  await undo.click();
  await expect.poll(() => storedText(page, 'benches/own-transformer.bench.yaml')).toBe(before);
  // Taken in, there is nothing more to take, on a later day too; and the first weights come back.
  await take.click();
  await page.getByText('The bench on this desk has these weights.').waitFor();
  await expect.poll(() => storedText(page, 'benches/own-transformer.bench.yaml')).toContain('prior: ');
  await page.reload();
  await page.getByText('The bench on this desk has these weights.').waitFor();
  await expect.poll(() => take.isDisabled()).toBe(true);
  await page.getByRole('button', { name: 'Back to the weights as first written' }).first().click();
  await expect.poll(() => storedText(page, 'benches/own-transformer.bench.yaml')).toBe(before);
});

const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
const logText = (lines: readonly unknown[]) => lines.map((one) => JSON.stringify(one)).join('\n');

test('without the crew, logs and an edition are opened from files, replayed, confirmed, kept, and removed; a broken log says what is trusted', async () => {
  const page = await open('#/walks');
  await page.getByRole('heading', { name: 'No walks yet' }).waitFor();
  const [whole, broken] = [coilOpenCall(flagship.walkable, 'mine', { site: '5 Yew' }), coilOpenCall(flagship.walkable, 'cut', { site: '6 Yew' })];
  const changed = broken.map((one, at) => (at === 20 ? { ...one, time: '2026-10-05T11:00:00.000Z' } : one));
  await page
    .getByLabel('Logs and editions')
    .setInputFiles([file('mine.walk.jsonl', logText(whole)), file('cut.walk.jsonl', logText(changed)), file('notes.txt', 'nothing')]);
  await rows(page).nth(1).waitFor();
  await expect.poll(() => page.locator('.walks-said').textContent()).toMatch(/Opened 2 walks.*notes\.txt is neither/s);
  await expect.poll(() => page.locator('.walk-table').textContent()).toContain('does not replay');
  await page.reload();
  await rows(page).nth(1).waitFor();
  await rows(page).filter({ hasText: '6 Yew' }).getByRole('link').click();
  await page.locator('.walk-trusted').waitFor();
  await expect.poll(() => page.locator('.walk-trusted').textContent()).toMatch(/changed after it was written.*lines 1 to 20 of 33/s);
  await page.goBack();
  await rows(page).filter({ hasText: '5 Yew' }).getByRole('link').click();
  await page.getByRole('radio', { name: /^It came back/ }).check();
  await page.getByRole('button', { name: 'Keep this' }).click();
  await page.locator('.walk-said li').waitFor();
  await page.getByRole('link', { name: 'All walks' }).click();
  await expect.poll(() => rows(page).filter({ hasText: '5 Yew' }).textContent()).toContain('it came back');
  await page
    .getByRole('button', { name: /^Remove the walk/ })
    .first()
    .click();
  await page.waitForFunction(() => document.querySelectorAll('.walk-table tbody tr').length === 1);
});
