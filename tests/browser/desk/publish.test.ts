import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { readEditionFile } from '../../../shared/device/publication.ts';
import { DeskDriver, seriousIn, storedText, typeOver, weigh } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const NAME = 'condensate-or-float-switch-holds-off';
const BENCH = 'condensate-safeties';

/** Gives one fault of the bench another weight, so that there is something to publish. */
async function reweigh(page: Page, weight: string): Promise<void> {
  await page.goto(`${desk.server.url}/desk/#/bench/${BENCH}`);
  await page.getByRole('button', { name: 'Edit fault drain-plugged' }).waitFor();
  await weigh(page, 'drain-plugged', weight);
}

async function publish(page: Page, why: string): Promise<string> {
  await page.goto(`${desk.server.url}/desk/#/tree/${NAME}/publish`);
  await page.getByRole('button', { name: 'Publish', exact: true }).waitFor();
  for (const reason of await page.getByLabel(/can stand$/).all()) await reason.fill('The crew knows of it.');
  await page.getByLabel('Who publishes it').fill('Marta Oakes');
  await page.getByLabel('Why', { exact: true }).fill(why);
  const hash = (await page.locator('.publish-go code').textContent()) ?? '';
  await page.getByRole('button', { name: 'Publish', exact: true }).click();
  await page.getByRole('button', { name: `Read edition ${hash}` }).waitFor();
  return hash;
}

test('a changed tree is published with who, why and what changed; it is downloaded, read, and walked in the field app without a signal', async () => {
  const page = await desk.open('');
  await reweigh(page, '7');
  await page.goto(`${desk.server.url}/desk/#/tree/${NAME}/publish`);
  await page.getByRole('button', { name: 'Publish', exact: true }).click();
  await expect.poll(() => page.getByRole('alert').textContent()).toContain('Say why');
  await expect.poll(() => page.locator('.publish-changes').first().textContent()).toMatch(/On the bench condensate-safeties: fault “.+” changed\./);
  expect(await seriousIn(page)).toEqual([]);
  const first = await publish(page, 'Heavier weight for what we meet');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: `Download edition ${first}` }).click()]);
  expect(download.suggestedFilename()).toBe(`${NAME}.${first}.edition.json`);
  const text = await readFile(await download.path(), 'utf8');
  const file = readEditionFile(text);
  expect(file.ok && file.value.hash.slice(0, 12)).toBe(first);
  expect(file.ok && file.value.publication?.by).toBe('Marta Oakes');
  expect(readEditionFile(text.replace('Handoff', 'Handover').replace('"weight":7', '"weight":8'))).toEqual({
    ok: false,
    problem: { code: 'changed-since' },
  });

  await reweigh(page, '9');
  const second = await publish(page, 'Heavier still');
  expect(second).not.toBe(first);
  await page.getByRole('button', { name: `Read edition ${first}` }).click();
  await expect.poll(() => page.locator('.edition-text').first().textContent()).toContain('complaint:');

  await page.getByRole('button', { name: `Walk edition ${first}` }).click();
  await page.getByRole('button', { name: 'Open the call' }).waitFor();
  await expect.poll(() => page.locator('.call-size').textContent()).toContain(first);
  // A look at the crew's list does not take away what was put here by hand.
  await page.goto(`${desk.server.url}/field/`);
  await page.getByRole('link', { name: new RegExp(`edition ${first} from the desk`) }).waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.context().setOffline(true);
  await page.reload();
  await page.getByRole('link', { name: new RegExp(`edition ${first} from the desk`) }).click();
  await page.getByRole('button', { name: 'Open the call' }).click();
  await page.waitForURL(/#\/walk\//);
});

test('an edition file is opened by the field app of another device, and a damaged one is refused', async () => {
  const page = await desk.open(`#/tree/${NAME}/publish`);
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /^Download edition / }).click()]);
  const buffer = await readFile(await download.path());
  const other = await desk.open('');
  await other.goto(`${desk.server.url}/field/`);
  const input = other.getByLabel('Open an edition file');
  await input.setInputFiles({ name: 'x.edition.json', mimeType: 'application/json', buffer: buffer.subarray(0, 200) });
  await other.getByText('it is no JSON').waitFor();
  await input.setInputFiles({ name: 'x.edition.json', mimeType: 'application/json', buffer });
  await other.getByRole('button', { name: 'Open the call' }).waitFor();
});

test('an error stands in the way and leads to its place', async () => {
  const page = await desk.open(`#/bench/${BENCH}`);
  const path = `benches/${BENCH}.bench.yaml`;
  await page.getByRole('textbox', { name: path }).waitFor();
  await expect.poll(() => storedText(page, path)).toBeTruthy();
  await typeOver(page, path, ((await storedText(page, path)) ?? '').replace(/volts: \S+/, 'volts: nothing-such'));
  await expect.poll(() => storedText(page, path)).toContain('nothing-such');
  await page.goto(`${desk.server.url}/desk/#/tree/${NAME}/publish`);
  await page.getByRole('heading', { name: /stands? in the way$/ }).waitFor();
  await expect.poll(() => page.getByRole('button', { name: 'Publish', exact: true }).count()).toBe(0);
  await page
    .getByRole('link', { name: new RegExp(`${BENCH}.bench.yaml line`) })
    .first()
    .click();
  await page.getByRole('heading', { name: 'The file as text' }).waitFor();
});

test('the guide is read on the desk, and nothing on it is hard to use', async () => {
  const page = await desk.open('#/guide');
  await page.getByRole('heading', { level: 1, name: /^From circuit to proved tree/ }).waitFor();
  expect(await seriousIn(page)).toEqual([]);
});
