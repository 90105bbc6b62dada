import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP } from './flagship-paths.ts';
import { Phone } from './phone.ts';

const PICTURE = fileURLToPath(new URL('../../../field-ui/public/icon-192.png', import.meta.url));

let hub: OwnedHub;
let server: OwnedHub['server'];
let owner: HubClient;
let phone: Phone;

beforeAll(async () => {
  hub = await ownedHub();
  ({ server, owner } = hub);
  phone = await Phone.make();
});

afterAll(async () => {
  await phone?.throwAway();
  await hub?.stop();
});

/** The pictures that are stored on the phone, by their id, as base 64. */
const storedPhotos = (page: Page): Promise<Readonly<Record<string, string>>> =>
  page.evaluate(
    () =>
      new Promise<Record<string, string>>((resolve, reject) => {
        const opening = indexedDB.open('ohmward-field');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('photos').objectStore('photos').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = async () => {
            opening.result.close();
            const photos: Record<string, string> = {};
            for (const { id, picture } of all.result as { id: string; picture: Blob }[]) {
              const bytes = new Uint8Array(await picture.arrayBuffer());
              photos[id] = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
            }
            resolve(photos);
          };
        };
      }),
  );

test('a photo that was taken without a signal, on a phone that died then, arrives byte for byte', { timeout: 600_000 }, async () => {
  let page = await phone.on();
  const [made] = good(await owner.invite({ role: 'tech' })).codes;
  await page.goto(`${server.url}/field/#/join/${made?.code}`);
  await page.getByLabel('Your name in the crew').fill('R. Alder');
  await page.getByLabel('What to call this device').fill('Van 3 phone');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.locator('.crew-line').getByText('All sent to the crew').waitFor();
  const field = new FieldDriver(page, server.url);
  await field.openCall(FLAGSHIP);
  const walk = /walk\/(.+)$/.exec(page.url())?.[1] ?? '';

  await phone.context.setOffline(true);
  await page.getByRole('button', { name: /^More/ }).click();
  await page.getByRole('button', { name: /^Photo/ }).click();
  await page.getByLabel('Take a photo').setInputFiles(PICTURE);
  await page.getByText('Kept with the call.').waitFor();
  const [[id = '', bytes = ''] = []] = Object.entries(await storedPhotos(page));
  expect(bytes.length).toBeGreaterThan(1000);
  expect((await owner.photo(walk, id)).ok).toBe(false);
  await phone.dies();

  page = await phone.on();
  await page.goto(`${server.url}/field/`);
  await page.locator('.crew-line').getByText('All sent to the crew').waitFor();
  const arrived = good(await owner.photo(walk, id));
  expect(arrived.type).toBe('image/jpeg');
  expect(Buffer.from(await arrived.arrayBuffer()).toString('base64')).toBe(bytes);
  expect(await storedPhotos(page)).toEqual({ [id]: bytes });
});
