import { readFile } from 'node:fs/promises';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { readDrillFile } from '../../../shared/device/drill-file.ts';
import { DrillDriver } from '../../drill/drill-driver.ts';
import { groundOn } from '../../drill/drill-grounds.ts';
import { DeskDriver, seriousIn } from './desk-driver.ts';

const TREE = 'condensate-or-float-switch-holds-off';
const BENCH = 'condensate-safeties';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
  // The first look at the list compiles every tree; no page should wait for it.
  await fetch(`${desk.server.url}/editions/index.json`);
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

test('without a hub a drill is made as a file, on the fault that a link names', async () => {
  const page = await desk.open(`#/drills?tree=${TREE}&bench=${BENCH}&fault=drain-plugged`);
  await page.getByLabel('Wrong in it').waitFor();
  await expect.poll(() => page.getByLabel('Wrong in it').inputValue()).toBe('drain-plugged');
  await expect.poll(() => page.getByRole('button', { name: 'Give the drill' }).count()).toBe(0);
  expect.soft(await seriousIn(page)).toEqual([]);
  await page.getByLabel('Order').selectOption('tree');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save it as a file' }).click()]);
  expect(download.suggestedFilename()).toMatch(/\.ohmward-drill\.json$/);
  const file = readDrillFile(await readFile(await download.path(), 'utf8'));
  expect(file).toMatchObject({ ok: true, value: { task: { tree: TREE, bench: BENCH, fault: 'drain-plugged', order: 'tree' } } });

  // Hidden even from the trainer: one of the bench's faults, and nothing on the page says which.
  await page.getByLabel('Wrong in it').selectOption('*');
  const [hidden] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save it as a file' }).click()]);
  const drawn = readDrillFile(await readFile(await hidden.path(), 'utf8'));
  if (!drawn.ok) throw new Error(JSON.stringify(drawn.problem));
  expect(Object.keys(groundOn(TREE, BENCH).bench.faults)).toContain(drawn.value.task.fault);
});

test('a drill that came as a file is compared with the best way; a file that is none is told', async () => {
  const page = await desk.open('#/drills');
  const file = page.getByLabel('File that ends in .ohmward-drill-run.json');
  await file.setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('{}') });
  await page.getByText('That is not the record of a drill').waitFor();

  const drill = new DrillDriver(groundOn(TREE, BENCH, { fault: 'float-stuck' }));
  drill.must({ do: 'look', sign: 'unit-runs' }, { do: 'measure', takes: 'ac-voltage', across: ['L1', 'N'] });
  drill.send({ do: 'measure', takes: 'resistance', across: ['FA', 'FB'] }).must({ do: 'turn', setting: 'cooling-call', state: 'off' });
  drill.must({ do: 'name', faults: ['float-stuck'] });
  const text = JSON.stringify(drill.run.record);
  await file.setInputFiles({ name: 'run.ohmward-drill-run.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.locator('.drill-comparison').waitFor();
  await page.getByText('with some luck').waitFor();
  await page.getByText('Refused: Resistance FA to FB.').waitFor();
  await page.getByText('Left in place: cooling call is off, found on.').waitFor();
  await expect.poll(() => page.locator('.drill-path').count()).toBe(2);
  await expect.poll(() => page.locator('.drill-path').first().locator('li[data-idle]').count()).toBe(1);
  expect.soft(await seriousIn(page)).toEqual([]);

  await page.getByRole('button', { name: 'All drills' }).click();
  const changed = text.replace('"shown":"no"', '"shown":"yes"');
  expect(changed).not.toBe(text);
  await file.setInputFiles({ name: 'run.json', mimeType: 'application/json', buffer: Buffer.from(changed) });
  await page.getByRole('alert').getByText('Move 1 comes out otherwise').waitFor();
});
