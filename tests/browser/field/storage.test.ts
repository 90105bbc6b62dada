import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';

let server: RunningServer;
let phone: Phone;
let page: Page;
let field: FieldDriver;

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
  page = await phone.on();
  field = new FieldDriver(page, server.url);
  await field.openCall(FLAGSHIP);
  await field.start();
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

test('with no room left an entry is not shown as entered, and is taken once there is room', async () => {
  await field.walkTo('Power at R and C', TO_COIL_OPEN);
  await field.readCautions();
  await field.setUp();
  // The browser looks at its quota when it opens a store, and for a while trusts what it saw.
  await phone.off();
  page = await phone.on();
  field = new FieldDriver(page, server.url);
  const session = await phone.context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: server.url, quotaSize: 1 });
  await field.openStart();
  await page.getByRole('link', { name: /Elm Street 12/ }).click();
  await page.locator('.pad').waitFor();
  const before = await field.mark();
  await field.pad('26.4');
  await page.getByRole('button', { name: 'Enter', exact: true }).tap();
  const trouble = page.locator('.trouble');
  await expect.poll(() => trouble.textContent()).toContain('no room left');
  await expect.poll(() => trouble.textContent()).toContain('Everything entered before is safe');
  await expect.poll(() => field.mark()).toBe(before);
  await expect.poll(() => field.typed()).toBe('26.4');
  await session.send('Storage.overrideQuotaForOrigin', { origin: server.url });
  await page.getByRole('button', { name: 'Enter', exact: true }).tap();
  await page.locator('.verdict').waitFor();
  await field.goOn();
});

test('little room is told on the start screen before anything is lost', async () => {
  const told = await phone.context.newPage();
  // Chromium does not let a test change what it tells a page about its quota, only the quota.
  await told.addInitScript(() => {
    navigator.storage.estimate = async () => ({ quota: 10_000_000, usage: 4_000_000 });
  });
  await told.goto(`${server.url}/field/`);
  await told.getByText('little room left (5.7 MB)').waitFor();
  await told.close();
  await field.openStart();
});

test('a second tab says that the call is open, and takes it over when asked', async () => {
  await page.getByRole('link', { name: /Elm Street 12/ }).click();
  await page.locator('.walk').waitFor();
  const second = await phone.context.newPage();
  await second.goto(page.url());
  await second.getByRole('heading', { name: 'This call is open in another tab or window' }).waitFor();
  await second.getByRole('button', { name: 'Go on here instead' }).click();
  await second.locator('.walk').waitFor();
  await page.getByRole('heading', { name: 'This call has been taken over in another tab' }).waitFor();
  await second.close();
  await page.getByRole('button', { name: 'Take it back here' }).click();
  await page.locator('.walk').waitFor();
});

test('a stored line that was changed is named, what is before it is shown, and the log can be saved', async () => {
  const walk = page.url().split('/').at(-1) ?? '';
  await field.openStart();
  await page.evaluate(
    (id) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('ohmward-field');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const lines = opening.result.transaction('lines', 'readwrite').objectStore('lines');
          const reading = lines.get([id, 5]);
          reading.onsuccess = () => {
            lines.put({ ...reading.result, time: '2020-01-01T00:00:00.000+00:00' });
            lines.transaction.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        };
      }),
    walk,
  );
  await page.getByRole('link', { name: /Elm Street 12/ }).click();
  await page.getByRole('heading', { name: 'The log of this call is damaged' }).waitFor();
  const text = await page.locator('main').textContent();
  expect(text).toContain('Line 6 was changed after it was written');
  expect(text).toContain('5 entries can be trusted');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the log as a file' }).click();
  expect((await download).suggestedFilename()).toBe(`${walk}.walk.jsonl`);
});
