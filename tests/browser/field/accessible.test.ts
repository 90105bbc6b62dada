import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';

const STANDARDS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

let server: RunningServer;

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
});

afterAll(async () => {
  await server?.close();
});

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  let phone: Phone;
  let field: FieldDriver;
  const found: string[] = [];

  beforeAll(async () => {
    phone = await Phone.make();
    field = new FieldDriver(await phone.on(), server.url);
    await field.page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  });

  afterAll(async () => {
    await phone?.throwAway();
  });

  /** What axe finds wrong with the screen as it stands, serious or worse. */
  async function look(screen: string): Promise<void> {
    const axe = new AxeBuilder({ page: field.page });
    // Between the themes only colors differ.
    const { violations } = await (colorScheme === 'light' ? axe.withTags(STANDARDS) : axe.withRules(['color-contrast'])).analyze();
    for (const { id, impact, nodes } of violations) {
      if (impact === 'serious' || impact === 'critical') found.push(`${screen}: ${id} at ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
    }
    const wide = await field.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (wide > 0) found.push(`${screen}: ${wide} px wider than the phone`);
  }

  const sheet = async (button: RegExp, screen: string): Promise<void> => {
    await field.page.locator('.walk').getByRole('button', { name: button }).first().click();
    await field.page.locator('dialog[open]').waitFor();
    await look(screen);
    await field.page.keyboard.press('Escape');
    await field.page.locator('dialog').waitFor({ state: 'detached' });
  };

  test('axe finds nothing serious on any kind of screen', async () => {
    const { page } = field;
    await field.openStart();
    await page.getByRole('link', { name: FLAGSHIP }).waitFor();
    await look('start');
    await page.getByRole('link', { name: FLAGSHIP }).click();
    await page.getByLabel('Site').waitFor();
    await look('tree');
    await field.openCall(FLAGSHIP);
    await look('opening, cautions to read');
    await field.readCautions();
    await look('opening, facts');
    await sheet(/Line voltage at the unit/, 'fact, a number');
    await sheet(/How is this humidifier wired/, 'fact, a choice');
    await field.start();
    await look('look');
    await field.answer(TO_COIL_OPEN);
    await look('verdict on a look');
    await field.goOn();
    await field.walkTo('Power at R and C', TO_COIL_OPEN);
    await field.readCautions();
    await look('reading');
    await page.locator('.pad-input').fill('abc');
    await page.getByRole('button', { name: 'Enter', exact: true }).tap();
    await page.locator('.trouble').waitFor();
    await look('reading refused');
    await page.locator('.pad-input').fill('');
    await field.pad('20.6');
    await page.getByRole('button', { name: 'Enter', exact: true }).tap();
    await page.locator('.verdict').waitFor();
    await look('too close to call');
    await field.goOnAllTheSame();
    await look('act');
    await field.walkTo('What hangs on V1 and V2', TO_COIL_OPEN);
    await look('ask');
    await sheet(/^Path/, 'path');
    await sheet(/^Put back/, 'put back');
    await sheet(/^Cautions/, 'cautions');
    await sheet(/^More/, 'more');
    await field.walkTo('Dead at the coil', TO_COIL_OPEN);
    await look('cautions of a step');
    await field.walkTo('Coil resistance', TO_COIL_OPEN);
    await field.readCautions();
    await page.getByRole('button', { name: /^Put back/ }).click();
    await page.getByRole('button', { name: 'It is on' }).click();
    await page.keyboard.press('Escape');
    await page.locator('.unmet').waitFor();
    await look('settings to set first');
    await field.walkTo('Coil open', TO_COIL_OPEN);
    await look('finding');
    await field.readCautions();
    await field.press(/^Accept/);
    await page.getByText('Power and calls now').waitFor();
    await look('repair');
    await sheet(/^Not today/, 'not repaired');
    await field.press('Repaired');
    await page.getByRole('button', { name: 'It is repaired' }).click();
    await page.locator('.put-back-list').waitFor();
    await look('put back, in the ritual');
    await field.putAllBack();
    await look('recheck');
    await field.setUp();
    await page.locator('.choice', { hasText: 'water runs' }).first().click();
    await page.getByRole('button', { name: 'Close the call' }).waitFor();
    await look('closing');
    await field.press('Close the call');
    await page.getByRole('heading', { name: 'Service report' }).waitFor();
    await look('report');
    expect(found).toEqual([]);
  });
});
