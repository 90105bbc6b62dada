import { setTimeout } from 'node:timers/promises';
import type { FastifyRequest } from 'fastify';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { WalkLine } from '../../../engine/walk/index.ts';
import { buildServer } from '../../../shared/crew/serve.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import { seededRandom } from '../../crew/testing/seeded-random.ts';
import { good, type HubFolder, hubFolder, ownerOf } from '../hub-in-folder.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP } from './flagship-paths.ts';
import { Phone } from './phone.ts';

const KILLS = 100;
/** Of these, how often the whole phone dies, storage and all, and not the page alone. */
const PHONE_EVERY = 20;

const random = seededRandom(11);
let folder: HubFolder;
let app: Awaited<ReturnType<typeof buildServer>>['app'];
let url: string;
let owner: HubClient;
let phone: Phone;
/** Uploads that the hub has begun on and not answered. */
const inFlight = new Set<string>();

beforeAll(async () => {
  folder = await hubFolder();
  const { store } = folder;
  app = (await buildServer({ hub: { store, limits: { device: 1e9, stranger: 1e9, codes: 1e9 } } })).app;
  // A way to the hub that takes time, there and back, so that kills meet uploads at every stage.
  const isUpload = (request: FastifyRequest): boolean => request.routeOptions.url === '/crew/walks/lines';
  app.addHook('preHandler', async (request, { raw }) => {
    if (!isUpload(request)) return;
    if (!raw.destroyed) {
      inFlight.add(request.id);
      // However it ends: answered, or its page killed.
      raw.once('close', () => void inFlight.delete(request.id));
    }
    await setTimeout(random() * 150);
  });
  app.addHook('onSend', async (request) => {
    if (isUpload(request)) await setTimeout(random() * 150);
  });
  url = await app.listen({ port: 0, host: '127.0.0.1' });
  owner = await ownerOf(url, folder.ownerCode);
  phone = await Phone.make();
});

afterAll(async () => {
  await phone?.throwAway();
  await app?.close();
  await folder?.throwAway();
});

/**
 * The page's own process ends at once; the browser and its storage go on. A page that is just being loaded may move to another process, and the order to end goes
 * with the one before: it is given again until it is heard.
 */
async function crash(page: Page): Promise<void> {
  let isGone = false;
  page.once('crash', () => {
    isGone = true;
  });
  for (let tried = 0; !isGone && tried < 20; tried += 1) {
    const sent = page
      .context()
      .newCDPSession(page)
      .then((session) => session.send('Page.crash'))
      .catch(() => undefined);
    await Promise.race([sent, setTimeout(500)]);
    for (let waited = 0; !isGone && waited < 500; waited += 10) await setTimeout(10);
  }
  expect(isGone).toBe(true);
}

/** Tells one fact of the house again and again, each time another value, until the page is gone. What was seen on the screen as entered is noted. */
async function enter(page: Page, next: () => string, shown: Set<string>): Promise<void> {
  const fact = page.getByRole('button', { name: /Line voltage at the unit/ });
  // The list says what is entered. The form beside it repeats what is only typed.
  const entered = page.locator('.fact-line', { hasText: 'Line voltage at the unit' }).locator('.fact-value');
  for (;;) {
    const value = next();
    await fact.click();
    await page.getByLabel('On this site').fill(value);
    await page.getByRole('button', { name: 'Take it' }).click();
    await entered.getByText(`${value} V`).waitFor();
    shown.add(value);
  }
}

test(`a phone that is killed at ${KILLS} points while it is written to and while it sends: what was shown as entered arrives, each once`, {
  timeout: 900_000,
}, async () => {
  let page = await phone.on();
  const [made] = good(await owner.invite({ role: 'tech' })).codes;
  await page.goto(`${url}/field/#/join/${made?.code}`);
  await page.getByLabel('Your name in the crew').fill('R. Alder');
  await page.getByLabel('What to call this device').fill('Van 3 phone');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.locator('.crew-line').getByText('All sent to the crew').waitFor();
  await new FieldDriver(page, url).openCall(FLAGSHIP);
  const at = page.url();
  const walk = /walk\/(.+)$/.exec(at)?.[1] ?? '';

  const shown = new Set<string>();
  let told = 0;
  const next = (): string => (100 + (told++ % 3000) / 100).toFixed(2);
  const met = { loading: 0, entering: 0, sending: 0 };
  for (let kill = 0; kill < KILLS; kill += 1) {
    const before = shown.size;
    const entering = (async () => {
      await page.goto(at);
      await enter(page, next, shown);
    })().catch(() => undefined);
    // Half of them somewhere in the start; a quarter once it is being written to, and a quarter while what was written is on its way.
    if (kill % 2 === 0) await setTimeout(random() * 600);
    else {
      for (let waited = 0; shown.size === before && waited < 15_000; waited += 10) await setTimeout(10);
      await setTimeout(random() * 400);
      const isSending = kill % 4 === 3;
      for (let waited = 0; inFlight.size > 0 !== isSending && waited < 5_000; waited += 5) await setTimeout(5);
    }
    met[inFlight.size > 0 ? 'sending' : shown.size === before ? 'loading' : 'entering'] += 1;
    if (kill % PHONE_EVERY === PHONE_EVERY - 1) {
      await phone.dies();
      await entering;
      page = await phone.on();
    } else {
      const fresh = page.context().newPage();
      await crash(page);
      await entering;
      await page.close();
      page = await fresh;
    }
  }

  const last = new FieldDriver(page, url);
  await last.openStart();
  await page.locator('.crew-line').getByText('All sent to the crew').waitFor();
  const { lines, aside, summary } = good(await owner.walkLines(walk));
  const values = (lines as WalkLine[]).flatMap(({ event }) => (event.type === 'told' ? [event.typed] : []));
  const times = new Map<string, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  expect([...shown].filter((value) => times.get(value) !== 1)).toEqual([]);
  expect([...times].filter(([, count]) => count > 1)).toEqual([]);
  expect(aside).toEqual([]);
  expect(summary).toMatchObject({ length: lines.length, lines: lines.length, told: lines.length, flags: [] });
  // Kills met every kind of moment, or this shows nothing.
  expect(shown.size).toBeGreaterThan(KILLS / 4);
  for (const count of Object.values(met)) expect(count).toBeGreaterThan(5);
  console.info(`${KILLS} kills (${JSON.stringify(met)}), ${shown.size} entries shown, ${values.length} arrived, each once`);
});
