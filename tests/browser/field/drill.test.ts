import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { drillFileText } from '../../../shared/device/drill-file.ts';
import { shippedEdition, taskOn } from '../../drill/drill-grounds.ts';
import { seriousIn } from '../desk/desk-driver.ts';
import { DrillOnPhone } from './drill-driver.ts';
import { FieldDriver } from './field-driver.ts';
import { pageErrors } from './page-errors.ts';
import { Phone } from './phone.ts';

const TREE = 'condensate-or-float-switch-holds-off';
const TITLE = 'Condensate or float switch holds the system off';
const BENCH = 'condensate-safeties';

let server: RunningServer;
let phone: Phone;
let field: FieldDriver;

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
  field = new FieldDriver(await phone.on(), server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

test('practised alone, a drill goes on where the phone died, and ends with its result', async () => {
  await field.openStart();
  await field.page.getByText('they work without a signal').waitFor();
  await field.page.getByText('Find a hidden fault').click();
  await field.page.getByRole('heading', { name: 'Practise alone' }).waitFor();
  expect.soft(await seriousIn(field.page)).toEqual([]);
  await field.page.getByLabel(/^Tree/).selectOption({ label: TITLE });
  await field.page.getByRole('button', { name: 'Practise', exact: true }).click();
  await field.page.getByRole('button', { name: 'Take the meter' }).click();
  let drill = new DrillOnPhone(field.page);
  expect(Number.parseFloat(await drill.read('L1', 'N'))).toBeGreaterThan(20);
  await drill.turn('cooling call', 'off');
  // A jumper onto a safety is refused; the drawing then shows none.
  await field.page.getByRole('button', { name: 'Change', exact: true }).click();
  await field.page.getByRole('button', { name: 'Put a jumper on' }).click();
  await drill.touch('FA', 'FB');
  await field.page.getByRole('button', { name: 'Put it on' }).click();
  await expect
    .poll(() =>
      field.page
        .getByRole('alert')
        .or(field.page.locator('.walk-bar-put-back', { hasText: '2' }))
        .count(),
    )
    .toBeGreaterThan(0);

  await phone.dies();
  field = new FieldDriver(await phone.on(), server.url);
  const errors = pageErrors(field.page);
  await field.openStart();
  await field.page.getByText('1 to go on with').waitFor();
  await field.page.getByText('Find a hidden fault').click();
  await field.page.getByRole('link', { name: /Go on/ }).click();
  drill = new DrillOnPhone(field.page);
  await expect.poll(() => drill.moves()).toBeGreaterThanOrEqual(2);
  await field.page.getByRole('button', { name: 'Answer' }).click();
  await field.page.getByText('Still in place:').waitFor();
  expect.soft(await seriousIn(field.page)).toEqual([]);
  await field.page.getByRole('button', { name: 'Give up' }).click();
  await field.page.locator('.drill-comparison').waitFor();
  await field.page.getByText('Given up').waitFor();
  expect(errors).toEqual([]);
});

test('along the tree, the leads are the tech’s own, and what the meter shows is what is entered', async () => {
  const { page } = field;
  const { compiled } = shippedEdition(TREE);
  const text = drillFileText(taskOn(TREE, BENCH, { fault: 'float-stuck', order: 'tree' }), compiled.edition);
  await page.goto(`${server.url}/field/#/drills`);
  await page.locator('input[type="file"]').setInputFiles({ name: 'd.ohmward-drill.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.locator('.walk').waitFor();
  await field.start();

  const look = async (answer: string): Promise<void> => {
    await field.readCautions();
    await field.setUp();
    await page.getByRole('button', { name: 'Look', exact: true }).click();
    await page.locator('.drill-sight strong').waitFor();
    const before = await field.mark();
    await page.locator('.choice', { hasText: answer }).first().click();
    await field.moved(before);
    await field.goOn();
  };
  const read = async (dial: string, red: string, black: string): Promise<string> => {
    await field.readCautions();
    await field.setUp();
    await page.getByLabel('Dial').selectOption({ label: dial });
    await page.locator('.drill-two select').first().selectOption(red);
    await page.locator('.drill-two select').last().selectOption(black);
    // With the dial or a lead moved, what was read before is gone from the display.
    await page.getByText('Set the dial, put both leads on, and read').waitFor();
    await page.getByRole('button', { name: 'Read', exact: true }).click();
    await page.getByText('The meter shows').waitFor();
    return ((await page.locator('.drill-display-value').textContent()) ?? '').trim();
  };
  const enter = async (): Promise<void> => {
    const before = await field.mark();
    await page.getByRole('button', { name: /^Enter it/ }).click();
    await field.moved(before);
    await field.goOn();
  };
  await look('stands still');
  await look('dry');
  await expect.poll(() => field.title()).toBe('Call at the board');
  // The wrong place shows what is there.
  expect(Number.parseFloat(await read('AC volts', 'R', 'C'))).toBeGreaterThan(20);
  expect.soft(await seriousIn(page)).toEqual([]);
  // A lead that is moved while a reading is being written: what is read then is not of where the leads are.
  await page.locator('.drill-tree-meter').evaluate((meter) => {
    const button = [...meter.querySelectorAll('button')].find(({ textContent }) => textContent === 'Read');
    const red = meter.querySelector<HTMLSelectElement>('.drill-two select');
    if (!button || !red) throw new Error('no meter');
    button.click();
    red.value = 'Y';
    red.dispatchEvent(new Event('change', { bubbles: true }));
  });
  await expect.poll(() => page.getByRole('button', { name: 'Read', exact: true }).isEnabled()).toBe(true);
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve))));
  expect(await page.locator('.drill-display-value').textContent()).toBe('– – –');
  expect(Number.parseFloat(await read('AC volts, low-impedance input', 'Y', 'C'))).toBeLessThan(2);
  await enter();
  // Back where the drill stood, from what is stored.
  await page.reload();
  await page.locator('.walk h1').waitFor();
  await expect.poll(() => field.title()).toBe('Call between the switches');
  expect(Number.parseFloat(await read('AC volts, low-impedance input', 'FA', 'C'))).toBeGreaterThan(20);
  await enter();
  expect(Number.parseFloat(await read('AC volts, low-impedance input', 'FB', 'C'))).toBeLessThan(2);
  await enter();
  await expect.poll(() => field.title()).toBe('Float switch stuck open');
  await field.readCautions();
  await field.press(/^Accept/);
  await page.locator('.drill-comparison').waitFor();
  await page.getByText('Right').waitFor();
  const numbers = await new DrillOnPhone(page).numbers();
  expect(numbers['Readings and looks']?.[0]).toBe('7');
});
