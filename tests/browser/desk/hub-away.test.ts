import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openBrowser } from '../browser.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { LAPTOP, seriousIn } from './desk-driver.ts';
import { coilOpenCall, flagshipEdition, upload } from './walks-crew.ts';

let hub: OwnedHub;
let browser: Browser;
let complaints: string[] = [];

beforeAll(async () => {
  hub = await ownedHub();
  const { walkable } = await flagshipEdition(hub.server.url);
  await upload(hub.owner, coilOpenCall(walkable, 'quick', { by: 'Ada Ash', site: '3 Oak' }));
  browser = await openBrowser();
});
afterEach(async () => {
  await Promise.all(browser.contexts().map((context) => context.close()));
  // That the signal was taken from it is told by the browser itself.
  const found = complaints.filter((text) => !text.includes('net::ERR_INTERNET_DISCONNECTED'));
  complaints = [];
  expect(found).toEqual([]);
});
afterAll(async () => {
  await browser?.close();
  await hub?.stop();
});

/** A desk of another owner of the crew, opened at an address. */
async function member(hash: string): Promise<Page> {
  const [made] = good(await hub.owner.invite({ role: 'owner' })).codes;
  const page = await (await browser.newContext(LAPTOP)).newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  await page.goto(`${hub.server.url}/desk/#/guide`);
  const status = await page.evaluate(async (code) => {
    const body = JSON.stringify({ code, name: 'T. Rowan', kind: 'desk', label: 'Laptop' });
    return (await fetch('/crew/join', { method: 'POST', headers: { 'content-type': 'application/json' }, body })).status;
  }, made?.code);
  expect(status).toBe(201);
  await page.goto(`${hub.server.url}/desk/${hash}`);
  await page.reload();
  return page;
}

const awayLine = (page: Page) => page.locator('.hub-away-line');
const lookAgain = (page: Page): Promise<void> => page.evaluate(() => void window.dispatchEvent(new Event('online')));

/** Takes the signal away until the page has noticed, and gives it back until the page has noticed that too. */
async function comeAndGo(page: Page, meanwhile: () => Promise<void>): Promise<void> {
  await page.context().setOffline(true);
  await lookAgain(page);
  await awayLine(page).waitFor();
  await meanwhile();
  await page.context().setOffline(false);
  await lookAgain(page);
  await awayLine(page).waitFor({ state: 'detached' });
}

test('a drill that is half made stays while the hub is away for a moment', async () => {
  const page = await member('#/drills');
  const note = page.getByLabel('A word to the tech, beside the complaint');
  await note.fill('Half a no');
  const whom = page.getByRole('checkbox', { name: 'M. Birch' });
  await whom.check();
  const isThere = async (): Promise<void> => {
    expect(await note.inputValue()).toBe('Half a no');
    expect(await whom.isChecked()).toBe(true);
    expect(await page.getByRole('button', { name: 'Give the drill' }).count()).toBe(1);
  };
  await comeAndGo(page, async () => {
    await isThere();
    expect(await seriousIn(page)).toEqual([]);
  });
  await isThere();
});

test('a walk of the crew stays, is not replayed anew, and keeps the note that is being typed', async () => {
  const page = await member('#/walks/quick');
  const note = page.getByLabel(/^Note/);
  await note.fill('Half a no');
  const begun: string[] = [];
  page.on('worker', (worker) => begun.push(worker.url()));
  const isThere = async (): Promise<void> => {
    expect(await note.inputValue()).toBe('Half a no');
    expect(begun.filter((url) => url.includes('replay-worker'))).toEqual([]);
  };
  await comeAndGo(page, isThere);
  await isThere();
});

test('a person’s form that is half filled in stays when the hub is looked at again', async () => {
  const page = await member('#/crew');
  await page.getByRole('button', { name: 'Change M. Birch' }).click();
  const name = page.locator('.crew-change').getByRole('textbox');
  await name.fill('Half a na');
  // The second look comes after all that the first one brought was drawn.
  for (let look = 0; look < 2; look += 1) {
    const answered = page.waitForResponse('**/crew/me');
    await lookAgain(page);
    await answered;
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  }
  expect(await name.inputValue()).toBe('Half a na');
  await comeAndGo(page, async () => expect(await name.inputValue()).toBe('Half a na'));
  expect(await name.inputValue()).toBe('Half a na');
});

test('a further page of walks that did not come is asked for again by the same button', async () => {
  const page = await member('#/guide');
  let further = 0;
  await page.route(/\/crew\/walks\?/, async (route) => {
    const url = new URL(route.request().url());
    const isFurther = url.searchParams.has('after');
    if (isFurther) further += 1;
    if (further === 1) {
      await route.fulfill({ json: 'not a list' });
      return;
    }
    url.searchParams.delete('after');
    const whole = await (await route.fetch({ url: url.href })).json();
    const walks = whole.walks.map((walk: object) => (isFurther ? { ...walk, walk: 'further' } : walk));
    await route.fulfill({ json: { ...whole, walks, ...(!isFurther && { next: 'further' }) } });
  });
  await page.goto(`${hub.server.url}/desk/#/walks`);
  const rows = page.locator('.walk-table tbody tr');
  await rows.first().waitFor();
  await page.getByRole('button', { name: 'Show more' }).click();
  await page.getByRole('alert').getByText('Something answered that is not the hub.').waitFor();
  await page.getByRole('button', { name: 'Show more' }).click();
  await rows.nth(1).waitFor();
  await expect.poll(() => page.getByRole('alert').count()).toBe(0);
});
