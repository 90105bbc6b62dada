import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';
import { storedRows } from './stored-rows.ts';

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

/** What was typed and not entered, as it is stored on the phone. */
const storedDrafts = async (): Promise<readonly string[]> =>
  (await storedRows<{ readonly text: string }>(field.page, 'drafts')).map(({ text }) => text);

/** The phone dies where it stands and is switched on again; the call is gone on with from the list, and stands where it did: what it was. */
async function dieAndGoOn(): Promise<string> {
  const before = await field.standing();
  await phone.dies();
  field = new FieldDriver(await phone.on(), server.url);
  await field.openStart();
  await field.page.getByRole('link', { name: /Elm Street 12/ }).click();
  // What was typed comes back a moment after the step.
  await expect.poll(() => field.standing()).toBe(before);
  return before;
}

// Steps of one call: each dies where the one before left it.
test('dies in the opening, a caution read and a fact told', async () => {
  await field.openCall(FLAGSHIP);
  await field.readCautions();
  await field.page.getByRole('button', { name: /Line voltage at the unit/ }).click();
  await field.page.getByLabel('On this site').fill('118');
  await field.page.getByRole('button', { name: 'Take it' }).click();
  // The list says what is entered. The form beside it repeats what is only typed.
  const entered = () => field.page.locator('.fact-line', { hasText: 'Line voltage at the unit' }).locator('.fact-value').getByText('118 V').waitFor();
  await entered();
  await dieAndGoOn();
  await expect.poll(() => field.page.locator('.hold-button').count()).toBe(0);
  await entered();
  await field.start();
});

test('dies with a reading half typed', async () => {
  await field.walkTo('Power at R and C', TO_COIL_OPEN);
  await field.readCautions();
  await field.setUp();
  await field.pad('26.');
  await expect.poll(storedDrafts).toEqual(['26.']);
  expect(await dieAndGoOn()).toContain('typed 26.');
});

test('dies on a verdict that is shown', async () => {
  await field.pad('4');
  await field.page.getByRole('button', { name: 'Enter', exact: true }).tap();
  await field.page.locator('.verdict').waitFor();
  await dieAndGoOn();
  await expect.poll(() => field.page.locator('.verdict-value').textContent()).toBe('26.4 V');
  await field.goOn();
});

test('dies right after an act, with a jumper in place', async () => {
  await field.readCautions();
  await field.press(/^Done$/);
  await field.page.getByRole('heading', { name: 'Water with the jumper on' }).waitFor();
  expect(await dieAndGoOn()).toContain('put back 1');
});

test('dies half way through putting back, and again before the report, which is all there', async () => {
  await field.walkTo('Coil open', TO_COIL_OPEN);
  await field.repair();
  await field.page.locator('.put-back-list button').first().click();
  await expect.poll(async () => (await field.counts())['Put back']).toBe(1);
  await dieAndGoOn();
  await field.putAllBack();
  await field.setUp();
  await field.page.locator('.choice', { hasText: 'water runs' }).first().click();
  await field.page.getByRole('button', { name: 'Close the call' }).waitFor();
  await dieAndGoOn();
  await field.press('Close the call');
  await field.page.getByRole('heading', { name: 'Service report' }).waitFor();
  await expect.poll(() => field.page.locator('.report').textContent()).toContain('Lead coil hot landed again');
});
