import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { DeskDriver, seriousIn } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const PROOF = '#/tree/no-water-at-the-pad/proof';

test('every fault is walked, the page answers meanwhile, and a cell is replayed reading by reading', async () => {
  const page = await desk.open(PROOF);
  await page.getByRole('button', { name: 'Stop' }).waitFor();
  // The page would not answer between two frames if the proof ran in it.
  const gaps = await page.evaluate(async () => {
    const found: number[] = [];
    let last = performance.now();
    while (!document.querySelector('.proof-matrix')) {
      await new Promise(requestAnimationFrame);
      found.push(performance.now() - last);
      last = performance.now();
    }
    return found.length;
  });
  expect(gaps).toBeGreaterThan(5);
  const rows = await page.locator('.proof-matrix tbody tr:not(.proof-bench)').count();
  const benches = await page.locator('.proof-bench').count();
  expect(await page.locator('.proof-verdict').textContent()).toContain(`${rows - benches} faults`);
  await page
    .getByRole('button', { name: /^coil-open at .*: right.*Replay$/ })
    .first()
    .click();
  await page.getByRole('heading', { name: /^Replay: coil-open/ }).waitFor();
  const steps = page.locator('.replay-path li');
  await steps.nth(1).waitFor();
  await page.getByRole('slider').fill(String((await steps.count()) - 1));
  expect(await steps.last().getAttribute('aria-current')).toBe('step');
  await page
    .locator('.replay-path li', { hasText: /\d V →/ })
    .first()
    .getByRole('button')
    .click();
  expect(await page.locator('.replay-reading').textContent()).toMatch(/[\d.]+ V red on \S+, black on \S+/);
  expect(await seriousIn(page)).toEqual([]);
});

test('it can be stopped and begun again', async () => {
  const page = await desk.open(PROOF);
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('heading', { name: 'Stopped' }).waitFor();
  await page.getByRole('button', { name: 'Prove it' }).click();
  await page.getByRole('heading', { name: 'Faults against findings' }).waitFor();
});
