import { appendFile, cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BUILT_APPS, type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP } from './flagship-paths.ts';
import { Phone } from './phone.ts';

let apps: string;
let server: RunningServer;
let phone: Phone;

beforeAll(async () => {
  apps = await mkdtemp(join(tmpdir(), 'ohmward-apps-'));
  await cp(BUILT_APPS, apps, { recursive: true });
  server = await startServer({ port: 0, host: '127.0.0.1', apps });
  phone = await Phone.make();
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
  await rm(apps, { recursive: true, force: true });
});

test('a new version waits, is offered on the start screen, and moves nobody who is in a call', async () => {
  const page = await phone.on();
  const field = new FieldDriver(page, server.url);
  await field.openStart();
  await page.getByText('they work without a signal').waitFor();
  await field.openCall(FLAGSHIP);
  await page.evaluate(() => Object.assign(window, { sameTab: true }));
  const before = await field.standing();

  await appendFile(join(apps, 'field', 'sw.js'), '\n// a newer version\n');
  const start = await phone.context.newPage();
  await start.goto(`${server.url}/field/`);
  const take = start.getByRole('button', { name: 'Use it now' });
  await take.waitFor();
  await expect.poll(() => page.getByText('new version').count()).toBe(0);
  const reloaded = start.waitForEvent('load');
  await take.click();
  await reloaded;
  await start.getByRole('link', { name: FLAGSHIP }).first().waitFor();
  await expect.poll(() => start.getByText('new version').count()).toBe(0);

  expect(await page.evaluate(() => 'sameTab' in window)).toBe(true);
  await expect.poll(() => field.standing()).toBe(before);
  await field.start();
});
