import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { TreeFolder, treeName } from '../../../engine/cli/tree-folder.ts';
import { PATIENCE } from '../browser.ts';
import { DeskDriver, seriousIn } from './desk-driver.ts';

const folder = new TreeFolder(fileURLToPath(new URL('../../../trees', import.meta.url)));
const TREES = folder.treeFiles().map(treeName);

/** Points of type below which a sheet on a bench is no help. A wiring label in a furnace is set no larger. */
const SMALLEST_TYPE = 6.5;

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterAll(() => desk.stop());

const settled = (page: Page): Promise<void> => page.locator('button:enabled', { hasText: 'Print the sheet' }).waitFor();

/** The sheet of a tree, once it has found its size. */
async function openSheet(name: string): Promise<Page> {
  const page = await desk.open(`#/tree/${name}/sheet`);
  await settled(page);
  return page;
}

const pagesOf = async (page: Page, format: 'Letter' | 'A4'): Promise<number> =>
  ((await page.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

describe('every tree is a sheet of two pages on letter and on A4, with every step and every finding', () => {
  // The shelf is read once; then the desk goes from sheet to sheet.
  let page: Page;
  beforeAll(async () => {
    page = await desk.open(`#/tree/${TREES[0]}/sheet`);
    await page.locator('.sheet-edition').waitFor({ timeout: 2 * PATIENCE });
  });
  afterAll(() => desk.endTest());

  test.each(TREES)('%s', async (name) => {
    await page.evaluate((hash) => {
      location.hash = hash;
    }, `#/tree/${name}/sheet`);
    await page.locator('.sheet-edition', { hasText: `trees/${name}.tree.mdx` }).waitFor();
    await settled(page);
    expect([await pagesOf(page, 'Letter'), await pagesOf(page, 'A4')]).toEqual([2, 2]);
    const sheet = page.locator('.sheet');
    expect(await sheet.evaluate((element) => Number.parseFloat((element as HTMLElement).style.fontSize))).toBeGreaterThanOrEqual(SMALLEST_TYPE);
    const text = ((await sheet.textContent()) ?? '').replace(/\s+/g, ' ');
    const tree = folder.sources(name).trees[name];
    for (const { title } of tree?.steps ?? []) expect(text).toContain(title);
    // Nothing is wider than the paper, where a printer would cut it off.
    expect(await sheet.evaluate((element) => element.scrollWidth <= element.clientWidth + 1)).toBe(true);
  });
});

describe('the sheet', () => {
  afterEach(() => desk.endTest());

  test('a sheet says which edition it is, what fits no line, and shows its cautions and numbers of the usual house', async () => {
    const page = await openSheet('dry-house-though-water-runs');
    await expect(page.locator('.sheet-edition').textContent()).resolves.toMatch(
      /^Edition [0-9a-f]{8} · trees\/dry-house-though-water-runs\.tree\.mdx · printed \d{4}-\d\d-\d\d$/,
    );
    await expect(page.locator('.sheet').textContent()).resolves.toContain('Call the senior tech. Nothing is guessed');
    await expect(page.locator('.sheet-cautions .caution-plate[data-signal="warning"]').count()).resolves.toBe(1);
    // 2000 ft² at 1 air change, 20 °F outside: 15.06 gallons a day by the equations, 14 in the sizing table of tests/outside/humidifier-load.csv.
    const row = page.locator('.sheet-steps tbody', { hasText: 'What the humidifier gives' }).last();
    await expect(row.textContent()).resolves.toMatch(/below 15\.1 gpd\*/);
  });

  test('it is reached from the tree, and what prints is the sheet alone', async () => {
    const page = await desk.open('#/tree/outdoor-sensor-lies');
    await page.getByRole('navigation', { name: 'Pages of this tree' }).getByRole('link', { name: 'Sheet' }).click();
    await settled(page);
    expect(await seriousIn(page)).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    await expect(page.locator('.sheet-bar').isVisible()).resolves.toBe(false);
    await expect(page.locator('.desk-bar').isVisible()).resolves.toBe(false);
    await expect(page.locator('.sheet').isVisible()).resolves.toBe(true);
  });

  test('a tree that is not there has no sheet, and a way back', async () => {
    const page = await desk.open('#/tree/no-such/sheet');
    await page.getByRole('heading', { name: 'There is no such tree' }).waitFor();
  });
});
