import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN, TO_FEED_WIRE_MISSING } from './flagship-paths.ts';
import { pageErrors } from './page-errors.ts';
import { Phone } from './phone.ts';

let server: RunningServer;
let phone: Phone;
let field: FieldDriver;
let errors: readonly string[];

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
  const page = await phone.on();
  errors = pageErrors(page);
  field = new FieldDriver(page, server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

describe('the flagship, walked on a phone', () => {
  test('ends on the open coil, repaired, put back, tried again and reported', async () => {
    await field.openCall(FLAGSHIP, 'Elm Street 12');
    await field.start();
    await field.walkTo('Coil open', TO_COIL_OPEN);
    expect(field.passed.slice(-4)).toEqual(['Power off for the coil', 'Dead at the coil', 'Lift a coil lead', 'Coil resistance']);
    await expect.poll(() => field.counts()).toMatchObject({ 'Put back': 2 });
    await field.closeFixed('water runs');
    const report = await field.page.locator('.report').textContent();
    for (const words of ['Elm Street 12', 'R. Alder', 'Fixed', 'Coil open', '26.4 V', 'OL', 'Lead coil hot landed again', 'Main power on again']) {
      expect(report).toContain(words);
    }
    for (const format of ['Letter', 'A4']) {
      const pdf = (await field.page.pdf({ format })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g), format).toHaveLength(1);
    }
    await field.openStart();
    await expect.poll(() => field.page.getByRole('link', { name: /Elm Street 12.*Fixed Coil open/ }).count()).toBe(1);
  });

  test('ends on the missing feed wire by other readings', async () => {
    field.passed.length = 0;
    await field.openCall(FLAGSHIP, 'Oak Street 3');
    await field.start();
    await field.walkTo('Feed wire missing', TO_FEED_WIRE_MISSING);
    expect(field.passed).not.toContain('Coil resistance');
    await field.closeFixed('water runs');
    await expect.poll(() => field.page.locator('.report').textContent()).toContain('Feed wire missing');
  });

  test('leaves a log that its own rules accept, and no error on the way', async () => {
    const download = field.page.waitForEvent('download');
    await field.page.getByRole('button', { name: 'Save the log' }).click();
    const log = await readFile(await (await download).path(), 'utf8');
    const lines = log
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as { seq: number; before: string; hash: string; event: { type: string } });
    expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, index) => index));
    expect(lines.slice(1).map(({ before }) => before)).toEqual(lines.slice(0, -1).map(({ hash }) => hash));
    expect([lines[0]?.event.type, lines.at(-1)?.event.type]).toEqual(['opened', 'closed']);
    expect(errors).toEqual([]);
  });
});

describe('a step back and a complaint that comes back', () => {
  test('the path is walked again from the step that was tapped', async () => {
    await field.openCall(FLAGSHIP, 'Pine Road 8');
    await field.start();
    await field.walkTo('Power at R and C', TO_COIL_OPEN);
    await field.page.getByRole('button', { name: /^Path/ }).click();
    await field.page.getByRole('button', { name: 'Supply cock' }).click();
    await field.page.getByRole('button', { name: /^Step back to here/ }).click();
    await field.page.getByRole('heading', { name: 'Supply cock', level: 1 }).waitFor();
    await expect.poll(() => field.counts()).toMatchObject({ Path: 3 });
  });

  test('after a repair that did not help, the walk goes on with that fault ruled out', async () => {
    await field.walkTo('Feed wire missing', TO_FEED_WIRE_MISSING);
    await field.repair();
    await field.putAllBack();
    await field.setUp();
    await field.page.locator('.choice', { hasText: 'pad dry' }).first().click();
    await field.page.getByText('The complaint is still there').waitFor();
    await expect.poll(() => field.page.locator('.step-notice').textContent()).toContain('Feed missing is ruled out');
    await expect.poll(() => field.title()).toBe('Water at the pad');
  });

  test('a step that cannot be done leads to the one to call, and everything is put back before the call is closed', async () => {
    await field.walkTo('Volts at the valve', TO_COIL_OPEN);
    await field.readCautions();
    await field.setUp();
    await field.press('Cannot');
    await field.page.getByLabel('For the log').fill('no room for the leads');
    await field.page.getByRole('button', { name: /^Cannot be done/ }).click();
    await field.page.getByRole('button', { name: 'Hand over' }).click();
    await field.putAllBack();
    await field.press('Close the call');
    await field.page.getByRole('heading', { name: 'Service report' }).waitFor();
    const report = await field.page.locator('.report').textContent();
    expect(report).toContain('Handed over');
    expect(report).toContain('no room for the leads');
    expect(report).toContain('Jumper on K1 to K2 taken off');
  });
});
