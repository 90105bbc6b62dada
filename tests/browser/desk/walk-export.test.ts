import { readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { WalkLine } from '../../../engine/walk/index.ts';
import { openBrowser } from '../browser.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { LAPTOP, seriousIn } from './desk-driver.ts';
import { coilOpenCall, flagshipEdition, upload } from './walks-crew.ts';

let hub: OwnedHub;
let server: OwnedHub['server'];
let browser: Browser;
let lines: readonly WalkLine[];
let code: string | undefined;

beforeAll(async () => {
  hub = await ownedHub();
  server = hub.server;
  lines = coilOpenCall((await flagshipEdition(server.url)).walkable, 'given', { by: 'Ada Ash', site: '3 Oak' });
  await upload(hub.owner, lines);
  code = good(await hub.owner.invite({ role: 'trainer' })).codes[0]?.code;
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await hub?.stop();
});

async function saved(page: Page, name: string): Promise<{ readonly file: string; readonly text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name }).click()]);
  return { file: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
}

test('a trainer gives a walk out as a table, an event log, statements and the log itself', async () => {
  const page = await (await browser.newContext(LAPTOP)).newPage();
  await page.goto(`${server.url}/desk/#/guide`);
  const status = await page.evaluate(async (given) => {
    const body = JSON.stringify({ code: given, name: 'T. Rowan', kind: 'desk', label: 'Laptop' });
    return (await fetch('/crew/join', { method: 'POST', headers: { 'content-type': 'application/json' }, body })).status;
  }, code);
  expect(status).toBe(201);
  await page.goto(`${server.url}/desk/#/walks/given`);
  await page.reload();
  await page.getByRole('heading', { name: 'Give this walk out' }).waitFor();

  const table = await saved(page, 'Table (CSV)');
  expect(table.file).toBe('no-water-at-the-pad-given.csv');
  expect(parse(table.text, { columns: true, record_delimiter: '\r\n' })).toHaveLength(lines.length);
  expect((await saved(page, 'Event log (XES)')).text.match(/<trace>/g)).toHaveLength(1);
  const statements = JSON.parse((await saved(page, 'Statements (xAPI)')).text);
  expect(statements[0].actor.account).toEqual({ homePage: server.url, name: 'Ada Ash' });
  const log = await saved(page, 'The log itself');
  expect(log.file).toBe('no-water-at-the-pad-given.jsonl');
  expect(
    log.text
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line)),
  ).toEqual(lines);
  await expect.poll(() => page.getByRole('status').filter({ hasText: log.file }).count()).toBe(1);
  expect(await seriousIn(page)).toEqual([]);
});
