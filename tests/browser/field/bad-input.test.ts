import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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
  await field.openCall(FLAGSHIP);
  await field.start();
  await field.walkTo('Power at R and C', TO_COIL_OPEN);
  await field.readCautions();
  await field.setUp();
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

const enter = (): Promise<void> => field.page.getByRole('button', { name: 'Enter', exact: true }).tap();

describe('the pad', () => {
  test.each([
    ['twenty', '“twenty” is not a number'],
    ['1,200', 'comma'],
    ['24 ohm', 'this reading is in V'],
    ['-3', 'less than'],
    ['OL', 'shows a number, not OL'],
    ['24 bananas', 'not a unit known here'],
  ])('refuses %s with its reason, and keeps what was typed', async (typed, reason) => {
    const before = await field.mark();
    await field.page.locator('.pad-input').fill(typed);
    await enter();
    await expect.poll(() => field.page.locator('.trouble').textContent()).toContain(reason);
    await expect.poll(() => field.typed()).toBe(typed);
    await expect.poll(() => field.mark()).toBe(before);
  });

  test('an empty entry is told, too', async () => {
    await field.page.locator('.pad-input').fill('');
    await enter();
    await expect.poll(() => field.page.locator('.trouble').textContent()).toContain('Nothing is typed');
  });

  test('keys of a keyboard land in the pad from anywhere on the screen', async () => {
    await field.page.locator('h1').focus();
    await field.page.keyboard.type('20.6');
    await expect.poll(() => field.typed()).toBe('20.6');
    await expect.poll(() => field.page.locator('.trouble').count()).toBe(0);
    await expect.poll(() => field.page.locator('.pad-echo').textContent()).toBe('= 20.6 V');
    await field.page.keyboard.press('Enter');
    await field.page.getByText('Too close to call').waitFor();
  });

  test('what is too close to call can be read again', async () => {
    await field.press('Read again');
    await field.pad('26.4');
    await enter();
    await expect.poll(() => field.page.locator('.verdict-value').textContent()).toBe('26.4 V');
    await expect.poll(() => field.page.getByText('Too close to call').count()).toBe(0);
  });
});

describe('a caution', () => {
  test('is not read by a tap, by a press let go, or by a key let go', async () => {
    await field.openCall(FLAGSHIP, 'Birch Lane 5');
    const hold = field.page.locator('.hold-button').first();
    await hold.focus();
    // Pressed and let go inside the page: on a busy machine an order to let go that comes from outside may take longer than a hold.
    const letGo = await hold.evaluate(async (button) => {
      const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
      const pointer = (type: string) => button.dispatchEvent(new PointerEvent(type, { bubbles: true, button: 0, pointerType: 'touch' }));
      const key = (type: string) => button.dispatchEvent(new KeyboardEvent(type, { bubbles: true, cancelable: true, key: 'Enter' }));
      const press = async (ms: number, give: (type: string) => boolean, down: string, up: string): Promise<string | null> => {
        give(down);
        await pause(ms);
        give(up);
        button.dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 1 }));
        // Longer than a hold lasts.
        await pause(1000);
        return button.getAttribute('data-hold');
      };
      return [
        await press(0, pointer, 'pointerdown', 'pointerup'),
        await press(0, key, 'keydown', 'keyup'),
        await press(300, pointer, 'pointerdown', 'pointerup'),
      ];
    });
    expect(letGo).toEqual(['let-go', 'let-go', 'let-go']);
    await expect.poll(() => field.page.locator('.hold-button').count()).toBe(1);
    await expect.poll(() => field.page.getByRole('button', { name: /^Start/ }).count()).toBe(0);
  });

  test('is read by a key that is held, and by two presses of those who cannot hold', async () => {
    const hold = field.page.locator('.hold-button').first();
    await hold.dispatchEvent('click', { detail: 0 });
    await field.page.getByText('Press again to confirm').waitFor();
    await expect.poll(() => field.page.locator('.hold-button').count()).toBe(1);
    await hold.focus();
    await field.page.keyboard.down('Enter');
    await expect.poll(() => field.page.locator('.hold-button').count()).toBe(0);
    await field.page.keyboard.up('Enter');
    await field.page.getByRole('button', { name: /^Start/ }).waitFor();
  });
});

describe('a log from outside', () => {
  const give = (name: string, text: string): Promise<void> =>
    field.page.getByLabel('Open a saved call log').setInputFiles({ name, mimeType: 'application/jsonl', buffer: Buffer.from(text) });
  const said = (): Promise<string | null> => field.page.locator('.start-import', { hasText: 'Open a saved call log' }).locator('p').textContent();
  let log = '';

  test('is saved, and taken in again on another device', async () => {
    await field.page.getByRole('button', { name: /^More/ }).click();
    const download = field.page.waitForEvent('download');
    await field.page.getByRole('button', { name: /^Save the log/ }).click();
    log = await readFile(await (await download).path(), 'utf8');
    const other = await Phone.make();
    try {
      const page = await other.on();
      await page.goto(`${server.url}/field/`);
      await page.getByRole('link', { name: FLAGSHIP }).waitFor();
      await page.getByLabel('Open a saved call log').setInputFiles({ name: 'call.jsonl', mimeType: 'application/jsonl', buffer: Buffer.from(log) });
      await page.getByText('Birch Lane 5').waitFor();
      await page.getByRole('button', { name: /^Start/ }).waitFor();
    } finally {
      await other.throwAway();
    }
  });

  test.each([
    ['a changed line', (text: string) => text.replace('Birch Lane 5', 'Birch Lane 6'), 'Line 1 was changed after it was written'],
    ['a missing line', (text: string) => text.split('\n').slice(1).join('\n'), 'lines are missing or out of order'],
    ['something else', () => '<html></html>', 'not the log of a call'],
    ['nothing', () => '', 'The file is empty'],
  ])('is not taken in with %s, and says so', async (_, spoil, reason) => {
    await field.openStart();
    await give('call.jsonl', spoil(log));
    await expect.poll(said).toContain(reason);
    expect(await said()).toContain('Nothing on this device was changed');
  });
});
