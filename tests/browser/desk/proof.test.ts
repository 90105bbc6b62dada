import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { DeskDriver, holdWorker, LAPTOP, seriousIn, storedText, typeOver } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const PROOF = '#/tree/no-water-at-the-pad/proof';

test('every fault is walked, the page answers meanwhile, and a cell is replayed reading by reading', async () => {
  // From before the proof begins, every frame notes how far it is. The page would not answer in the middle of it if the proof ran in it.
  const page = await desk.open('#/guide');
  await page.evaluate((proof) => {
    const shown = new Set<string>();
    Object.assign(window, { shown });
    const look = (): void => {
      const bar = document.querySelector('.proof-state progress[value]');
      if (bar) shown.add(bar.getAttribute('value') ?? '');
      requestAnimationFrame(look);
    };
    look();
    location.hash = proof;
  }, PROOF);
  await page.locator('.proof-matrix').waitFor();
  const shown = await page.evaluate(() => [...(window as unknown as { readonly shown: ReadonlySet<string> }).shown]);
  expect(shown.length).toBeGreaterThan(1);
  const rows = await page.locator('.proof-matrix tbody tr:not(.proof-bench)').count();
  const benches = await page.locator('.proof-bench').count();
  await expect.poll(() => page.locator('.proof-verdict').textContent()).toContain(`${rows - benches} faults`);
  await page
    .getByRole('button', { name: /^coil-open at .*: right.*Replay$/ })
    .first()
    .click();
  await page.getByRole('heading', { name: /^Replay: coil-open/ }).waitFor();
  const steps = page.locator('.replay-path li');
  await steps.nth(1).waitFor();
  await page.getByRole('slider').fill(String((await steps.count()) - 1));
  await expect.poll(() => steps.last().getAttribute('aria-current')).toBe('step');
  await page
    .locator('.replay-path li', { hasText: /\d V →/ })
    .first()
    .getByRole('button')
    .click();
  await expect.poll(() => page.locator('.replay-reading').textContent()).toMatch(/[\d.]+ V red on \S+, black on \S+/);
  expect(await seriousIn(page)).toEqual([]);
});

test('it can be stopped and begun again', async () => {
  const page = await desk.open('#/guide');
  const letGo = await holdWorker(page, 'proof-worker');
  await page.goto(`${desk.server.url}/desk/${PROOF}`);
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('heading', { name: 'Stopped' }).waitFor();
  letGo();
  await page.getByRole('button', { name: 'Prove it' }).click();
  await page.getByRole('heading', { name: 'Faults against findings' }).waitFor();
});

const FLAGSHIP = 'no-water-at-the-pad.tree.mdx';

test('a really broken tree: what could hurt someone and what is missed are listed with their paths, and a miss is replayed', async () => {
  const page = await desk.open('#/tree/no-water-at-the-pad/edit');
  await page.getByRole('textbox', { name: 'Text of the tree' }).waitFor();
  await expect.poll(() => storedText(page, FLAGSHIP)).toBeTruthy();
  const sound = (await storedText(page, FLAGSHIP)) ?? '';
  // A coil that reads open is called stuck, and the meter is not proved before its zero is believed (live, dead, live: NFPA 70E 120.5).
  const band = /^- open: \[(.+)\]\(#coil-open\)$/m;
  expect(sound).toMatch(band);
  const broken = sound
    .replace(band, '- open: [Valve stuck](#valve-stuck)')
    .replaceAll(/(turn humidifier-power off, remove jumper K1 to K2), prove the meter/g, '$1');
  await typeOver(page, 'Text of the tree', broken);
  await expect.poll(() => storedText(page, FLAGSHIP)).toBe(broken);
  await page.getByRole('link', { name: 'Proof', exact: true }).click();
  const safety = page.getByRole('region', { name: /^Could hurt someone: \d+/ });
  await safety.waitFor();
  await expect.poll(() => safety.locator('.problem-brief').first().textContent()).toContain('meter-not-proved');
  expect((await safety.locator('.problem-path').first().textContent())?.length).toBeGreaterThan(20);
  const misses = page.getByRole('region', { name: /^Missed or misnamed: \d+/ });
  const miss = misses.locator('li', { hasText: /coil-open on own-transformer ends at Valve stuck/ }).first();
  await miss.getByRole('button', { name: 'Replay it' }).click();
  await page.getByRole('heading', { name: /^Replay: coil-open on / }).waitFor();
  await page.locator('.replay-path li', { hasText: 'Valve stuck' }).waitFor();
  await page.locator('.replay-path li', { hasText: /OL →/ }).getByRole('button').click();
  await expect.poll(() => page.locator('.replay-reading').textContent()).toContain('OL');
  expect(await seriousIn(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await seriousIn(page)).toEqual([]);
  // Such a tree is not published: its errors stand in the way.
  await page.getByRole('link', { name: 'Publish', exact: true }).click();
  await page.getByRole('heading', { name: /stands? in the way$/ }).waitFor();
  expect(await seriousIn(page)).toEqual([]);
});

test.each(['light', 'dark'] as const)('shelf, proof and publish have nothing serious for axe in the %s theme', async (colorScheme) => {
  const page = await desk.open('', { ...LAPTOP, colorScheme });
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  await page.getByLabel('More for No water at the pad').click();
  expect(await seriousIn(page)).toEqual([]);
  await page.goto(`${desk.server.url}/desk/#/tree/condensate-or-float-switch-holds-off/proof`);
  await page.getByRole('heading', { name: 'Faults against findings' }).waitFor();
  expect(await seriousIn(page)).toEqual([]);
  await page.goto(`${desk.server.url}/desk/#/tree/condensate-or-float-switch-holds-off/publish`);
  await page.getByRole('heading', { name: 'Nothing has changed' }).waitFor();
  expect(await seriousIn(page)).toEqual([]);
});
