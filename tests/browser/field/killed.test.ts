import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';

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

/** The phone dies where it stands and is switched on again; the call is gone on with from the list. */
async function dieAndGoOn(): Promise<{ before: string; after: string }> {
  const before = await field.standing();
  await phone.dies();
  field = new FieldDriver(await phone.on(), server.url);
  await field.openStart();
  await field.page.getByRole('link', { name: /Elm Street 12/ }).click();
  return { before, after: await field.standing() };
}

// Steps of one call: each dies where the one before left it.
test('dies in the opening, a caution read and a fact told', async () => {
  await field.openCall(FLAGSHIP);
  await field.readCautions();
  await field.page.getByRole('button', { name: /Line voltage at the unit/ }).click();
  await field.page.getByLabel('On this site').fill('118');
  await field.page.getByRole('button', { name: 'Take it' }).click();
  await field.page.getByText('118 V').waitFor();
  const { before, after } = await dieAndGoOn();
  expect(after).toBe(before);
  await expect.poll(() => field.page.locator('.hold-button').count()).toBe(0);
  await field.page.getByText('118 V').waitFor();
  await field.start();
});

test('dies with a reading half typed', async () => {
  await field.walkTo('Power at R and C', TO_COIL_OPEN);
  await field.readCautions();
  await field.setUp();
  await field.pad('26.');
  // Longer than a draft waits to be kept.
  await field.page.waitForTimeout(1000);
  const { before, after } = await dieAndGoOn();
  expect(before).toContain('typed 26.');
  expect(after).toBe(before);
});

test('dies on a verdict that is shown', async () => {
  await field.pad('4');
  await field.page.getByRole('button', { name: 'Enter', exact: true }).tap();
  await field.page.locator('.verdict').waitFor();
  const { before, after } = await dieAndGoOn();
  expect(after).toBe(before);
  await expect.poll(() => field.page.locator('.verdict-value').textContent()).toBe('26.4 V');
  await field.goOn();
});

test('dies right after an act, with a jumper in place', async () => {
  await field.readCautions();
  await field.press(/^Done$/);
  await field.page.getByRole('heading', { name: 'Water with the jumper on' }).waitFor();
  const { before, after } = await dieAndGoOn();
  expect(before).toContain('put back 1');
  expect(after).toBe(before);
});

test('dies half way through putting back, and again before the report, which is all there', async () => {
  await field.walkTo('Coil open', TO_COIL_OPEN);
  await field.repair();
  await field.page.locator('.put-back-list button').first().click();
  await expect.poll(async () => (await field.counts())['Put back']).toBe(1);
  const halfway = await dieAndGoOn();
  expect(halfway.after).toBe(halfway.before);
  await field.putAllBack();
  await field.setUp();
  await field.page.locator('.choice', { hasText: 'water runs' }).first().click();
  await field.page.getByRole('button', { name: 'Close the call' }).waitFor();
  const closing = await dieAndGoOn();
  expect(closing.after).toBe(closing.before);
  await field.press('Close the call');
  await field.page.getByRole('heading', { name: 'Service report' }).waitFor();
  await expect.poll(() => field.page.locator('.report').textContent()).toContain('Lead coil hot landed again');
});
