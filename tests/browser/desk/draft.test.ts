import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { DeskDriver, holdWorker, LAPTOP, seriousIn } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const BENCH = 'condensate-safeties';
const minutesIn = (text: string | null): number[] => [...(text ?? '').matchAll(/\d+\.\d/g)].map(([number]) => Number(number));

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  test('a tree is drafted from a bench by keyboard, saved as one step, without problems, and proved clean beside the best order', async () => {
    const page = await desk.open('', { ...LAPTOP, colorScheme });
    const begin = page.getByRole('button', { name: 'New tree from a bench' });
    await begin.focus();
    await page.keyboard.press('Enter');
    const form = page.getByRole('form', { name: 'New tree from a bench' });
    await expect.poll(() => form.getByLabel('Bench').evaluate((field) => field === document.activeElement)).toBe(true);
    expect(await seriousIn(page)).toEqual([]);

    await form.getByLabel('Bench').selectOption(BENCH);
    await page.keyboard.press('Tab');
    const title = `Air handler does not cool, drafted ${colorScheme}`;
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type(title);
    await page.keyboard.press('Enter');
    const summary = page.getByRole('region', { name: `Draft: ${title}` });
    await summary.waitFor();
    await expect.poll(() => summary.evaluate((box) => box === document.activeElement)).toBe(true);
    const told = await summary.textContent();
    expect(told).toContain('the least there is');
    expect(told).toContain('Checked: no problems. Nothing is saved yet.');
    const [drafted = 0, bound = 0] = minutesIn(told);
    expect(bound).toBeGreaterThan(0);
    expect(bound).toBeLessThanOrEqual(drafted);
    expect(await seriousIn(page)).toEqual([]);

    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.waitForURL(/#\/tree\/air-handler-does-not-cool-drafted-\w+\/edit\/opening$/);
    await page.getByRole('status').filter({ hasText: 'No problems' }).waitFor();

    await page.getByRole('navigation', { name: 'Pages of this tree' }).getByRole('link', { name: 'Proof' }).click();
    const sum = page.locator('.proof-minutes-sum');
    await sum.waitFor();
    await expect.poll(() => page.locator('.proof-verdict').textContent()).toMatch(/^All \d+ faults end on a finding that names them/);
    const [own, best, least] = minutesIn(await sum.textContent());
    expect(own).toBe(drafted);
    expect(best).toBe(drafted);
    expect(least).toBeLessThanOrEqual(best ?? 0);
    await page.getByText('No step of the tree loses as much as three seconds a call.').waitFor();
    await expect.poll(() => page.getByRole('heading', { name: /^Could hurt someone|^Missed or misnamed/ }).count()).toBe(0);
    expect(await seriousIn(page)).toEqual([]);

    await page.goto(`${desk.server.url}/desk/#/`);
    await page.getByRole('button', { name: `Undo: Draft “${title}”` }).click();
    await page.getByRole('link', { name: title, exact: true }).waitFor({ state: 'detached' });
  });

  test('a tree that takes longer shows which steps cost it, and leads to them', async () => {
    const page = await desk.open('#/tree/condensate-or-float-switch-holds-off/proof', { ...LAPTOP, colorScheme });
    const sum = page.locator('.proof-minutes-sum');
    await sum.waitFor();
    const [own = 0, best = 0, bound = 0] = minutesIn(await sum.textContent());
    expect(bound).toBeLessThanOrEqual(best);
    expect(best).toBeLessThan(own);
    const rows = page.getByRole('table', { name: 'Steps that cost it' }).locator('tbody tr');
    const lost = await rows.locator('.costly-lost').allTextContents();
    const each = lost.map((text) => Number.parseFloat(text));
    expect(each).toEqual([...each].sort((a, b) => b - a));
    const rest = await page.getByText(/ other steps? /).textContent();
    const [, back, others = '0'] = /(wins? back )?(\d+\.\d+) min/.exec(rest ?? '') ?? [];
    const together = each.reduce((total, one) => total + one, 0) + (back === undefined ? 1 : -1) * Number(others);
    // Each figure is rounded to a hundredth, the two sums to a tenth.
    expect(Math.abs(together - (own - best))).toBeLessThan(0.1 + 0.005 * (each.length + 1));
    expect(await seriousIn(page)).toEqual([]);
    const first = rows.first().getByRole('link');
    const name = (await first.textContent()) ?? '';
    await first.click();
    await page.waitForURL(/\/edit\/[a-z0-9-]+$/);
    await page.getByRole('heading', { name }).or(page.getByLabel('Title')).first().waitFor();
  });
});

test('a draft can be stopped, and a bench with errors says so; nothing is written either way', async () => {
  const page = await desk.open('');
  const letGo = await holdWorker(page, 'draft-worker');
  await page.getByRole('button', { name: 'New tree from a bench' }).click();
  const form = page.getByRole('form', { name: 'New tree from a bench' });
  await form.getByLabel('Bench').selectOption('ignition-sequence');
  await form.getByRole('button', { name: 'Draft it' }).click();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await form.getByText('Stopped. Nothing was written.').waitFor();
  letGo();
  await form.getByLabel('What the crew calls the tree').fill('?');
  await form.getByRole('button', { name: 'Draft it' }).click();
  await expect.poll(() => form.getByRole('alert').textContent()).toContain('letter or a digit');
  await page.keyboard.press('Escape');
  await form.waitFor({ state: 'detached' });

  const broken =
    'title: A bench that is not finished\nterminals: [R, C]\nparts: { supply: { kind: source, between: [R, C], volts: nothing-such } }\nfaults: {}\n';
  await page.getByLabel('Files to import').setInputFiles({ name: 'not-finished.bench.yaml', mimeType: 'text/yaml', buffer: Buffer.from(broken) });
  await page.getByRole('link', { name: 'A bench that is not finished' }).waitFor();
  await page.getByRole('button', { name: 'New tree from a bench' }).click();
  await form.getByLabel('Bench').selectOption('not-finished');
  await form.getByRole('button', { name: 'Draft it' }).click();
  await form.getByText('Put the bench right first.').waitFor();
  await expect.poll(() => form.getByRole('link', { name: 'Open the bench' }).getAttribute('href')).toBe('#/bench/not-finished');
  expect(await seriousIn(page)).toEqual([]);
  await expect.poll(() => page.getByRole('button', { name: /^Undo: Draft/ }).count()).toBe(0);
});
