import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP, TO_COIL_OPEN } from './flagship-paths.ts';
import { Phone } from './phone.ts';

let server: RunningServer;
let phone: Phone;

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

test('after the first visit a call is walked from a cold start with no service there at all', async () => {
  const page = await phone.on();
  let field = new FieldDriver(page, server.url);
  await field.openStart();
  await page.getByText('they work without a signal').waitFor();
  await phone.off();

  const { url } = server;
  await server.close();
  await expect(fetch(`${url}/field/`)).rejects.toThrow();
  field = new FieldDriver(await phone.on(), url);
  const failed: string[] = [];
  field.page.on('requestfailed', (request) => failed.push(new URL(request.url()).pathname));
  await field.openCall(FLAGSHIP);
  await field.start();
  await field.walkTo('Coil open', TO_COIL_OPEN);
  await field.closeFixed('water runs');
  // The list of editions is looked for at every start; nothing else may be missing.
  expect(failed.filter((path) => path !== '/editions/index.json')).toEqual([]);
  await field.openStart();
  await field.page.getByText('No signal').waitFor();
});

test('on a first visit without a signal for the list, the empty screens say what to do', async () => {
  const own = await startServer({ port: 0, host: '127.0.0.1' });
  const fresh = await Phone.make();
  try {
    const page = await fresh.on();
    await page.route('**/editions/**', (route) => route.abort());
    for (const [hash, title] of [
      ['', 'Ohmward'],
      ['#/drills', 'Drills'],
    ] as const) {
      await page.goto(`${own.url}/field/${hash}`);
      await page.getByRole('heading', { name: title, exact: true }).waitFor();
      await page.getByText('There is no tree on this device yet.').waitFor();
      await page.getByText('connect once').waitFor();
    }
    await page.unroute('**/editions/**');
    await page.getByRole('button', { name: 'Look again' }).click();
    await page.getByLabel(/^Tree/).selectOption({ label: FLAGSHIP });
    await page.goto(`${own.url}/field/`);
    await page.getByRole('link', { name: FLAGSHIP }).waitFor();
  } finally {
    await fresh.throwAway();
    await own.close();
  }
});

test('an edition that is not the one its hash names is not kept', async () => {
  const own = await startServer({ port: 0, host: '127.0.0.1' });
  const fresh = await Phone.make();
  try {
    const page = await fresh.on();
    await page.route(/\/editions\/[0-9a-f]{64}\.json$/, async (route) => {
      const response = await route.fetch();
      const text = await response.text();
      await route.fulfill({ response, body: text.replaceAll('85 % of coil-rated', '15 % of coil-rated') });
    });
    await page.goto(`${own.url}/field/`);
    await page.getByText(`“${FLAGSHIP}” did not arrive as it was published`).waitFor();
    await expect.poll(() => page.getByRole('link', { name: FLAGSHIP }).count()).toBe(0);
  } finally {
    await fresh.throwAway();
    await own.close();
  }
});
