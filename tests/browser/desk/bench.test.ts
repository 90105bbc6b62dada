import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { DeskDriver, seriousIn } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const OWN = '#/bench/own-transformer';
const reading = '.meter-reading';

test('two points pressed on the drawing are read at once, and a fault shows beside what the sound circuit would read', async () => {
  const page = await desk.open(OWN);
  await page.locator(reading).waitFor();
  await page.getByRole('button', { name: 'terminal V1' }).click();
  await page.getByRole('button', { name: 'terminal V2' }).focus();
  await page.keyboard.press('Enter');
  const sound = await page.locator(reading).textContent();
  expect(Number.parseFloat(sound ?? '')).toBeGreaterThan(20);
  await page.getByRole('checkbox', { name: /^feed-missing / }).check();
  await expect.poll(async () => Number.parseFloat((await page.locator(reading).textContent()) ?? '')).toBeLessThan(20);
  expect(await page.locator('.meter-sound').textContent()).toContain(sound);
  expect(await page.locator('.bench-signs').textContent()).toContain('valve-clicks: no, sound circuit: yes');
  expect(await seriousIn(page)).toEqual([]);
});

test('ohms on a live circuit are refused in words; with the power off they are read', async () => {
  const page = await desk.open(OWN);
  await page.locator(reading).waitFor();
  await page.locator('.meter').getByLabel('Dial').selectOption('resistance');
  expect(await page.locator(reading).textContent()).toMatch(/cannot be read here: the circuit is live/);
  await page.getByRole('group', { name: 'main-power' }).getByRole('radio', { name: 'off' }).check();
  expect(await page.locator(reading).textContent()).toMatch(/Ω|OL/);
  await page.getByRole('button', { name: 'As found' }).click();
  expect(await page.locator(reading).textContent()).toMatch(/is live/);
});

test('a part and a fault are added, changed and removed by forms; other lines stay, undo goes back, and a reload keeps it', async () => {
  const page = await desk.open(OWN);
  const file = page.getByRole('textbox', { name: 'benches/own-transformer.bench.yaml' });
  await file.waitFor();
  const before = await file.inputValue();
  await page.getByRole('button', { name: 'Edit part control', exact: true }).click();
  const form = page.getByRole('form', { name: 'Part control' });
  await form.getByLabel('Resistance, or VA and rated volts').fill('500 ohm');
  await form.getByRole('button', { name: 'Save' }).click();
  await expect.poll(() => file.inputValue()).toBe(before.replace('between: [R, C], ohms: 600 ohm', 'between: [R, C], ohms: 500 ohm'));
  await page.getByRole('button', { name: 'Add a fault' }).click();
  const fault = page.getByRole('form', { name: 'New fault' });
  await fault.getByRole('button', { name: 'Save' }).click();
  expect(await fault.getByRole('alert').textContent()).toContain('“Becomes” is empty');
  await fault.getByLabel('Name in the file').fill('control-shorted');
  await fault.getByLabel('Part', { exact: true }).selectOption('control');
  await fault.getByLabel('Becomes').fill('shorted');
  await fault.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: 'Edit fault control-shorted' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Remove fault control-shorted' }).click();
  await expect.poll(() => file.inputValue()).not.toContain('control-shorted');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => file.inputValue()).toContain('control-shorted');
});

test('a mistake in the text is told with its line as it is typed, and the last sound circuit stays', async () => {
  const page = await desk.open(OWN);
  const file = page.getByRole('textbox', { name: 'benches/own-transformer.bench.yaml' });
  await file.waitFor();
  await page.locator(reading).waitFor();
  const text = await file.inputValue();
  await file.fill(text.replace('volts: line-volts', 'volts: line-voltz'));
  const line = text.split('\n').findIndex((one) => one.includes('volts: line-volts,')) + 1;
  await page.getByRole('button', { name: new RegExp(`line ${line}$`) }).waitFor();
  expect(await page.getByText('The circuit below is the last one that could be solved.').isVisible()).toBe(true);
  expect(await page.locator(reading).isVisible()).toBe(true);
});

test('a new bench is made from the shelf and can be tried at once', async () => {
  const page = await desk.open('');
  await page.getByRole('button', { name: 'New bench' }).click();
  await page.getByLabel('Title of the new bench').fill('Zone valve by its thermostat');
  await page.getByRole('button', { name: 'Make it' }).click();
  await page.getByRole('heading', { level: 1, name: 'Zone valve by its thermostat' }).waitFor();
  await expect.poll(async () => Number.parseFloat((await page.locator(reading).textContent()) ?? '')).toBeGreaterThan(24);
});
