import { execFileSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright';
import { startServer } from '../../shared/crew/serve.ts';
import { openBrowser } from '../browser/browser.ts';
import { type Bench, benchRow } from './bench-row.ts';
import { longTree } from './long-tree.ts';

const LONG = 1000;
const SHORT = 10;
const TURNS = 3;

/** Counts frames in the page. As text: what a bundler adds to a function's name is not there. */
const COUNT_FRAMES = `(() => {
  const frames = [];
  let last = performance.now();
  window.measuredFrames = frames;
  requestAnimationFrame(function next(now) {
    frames.push(now - last);
    last = now;
    if (window.measuredFrames === frames) requestAnimationFrame(next);
  });
})()`;

/** Frame times while something is done to a page: ms between two frames. */
async function framesWhile(page: Page, work: () => Promise<void>): Promise<readonly number[]> {
  await page.evaluate(COUNT_FRAMES);
  await work();
  const frames = await page.evaluate<readonly number[]>('const taken = window.measuredFrames; window.measuredFrames = undefined; taken');
  // The first one began before the work did.
  return frames.slice(1);
}

const percentile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
};

const median = (values: readonly number[]): number => percentile(values, 0.5);

type Measured = { readonly opened: number; readonly panned: number; readonly typed: number };

/** Opens a tree for editing, draws its graph to and fro, and types into the title of a step. */
async function measure(page: Page, url: string, name: string): Promise<Measured> {
  const start = performance.now();
  await page.goto(`${url}/desk/#/tree/${name}/edit/reading-2`);
  await page.waitForFunction(() => {
    const words = document.querySelector('.problems-panel h2')?.textContent ?? '';
    return words !== '' && words !== 'Checking';
  });
  const opened = performance.now() - start;
  await page.locator('.slip').first().waitFor();
  // The rest of the checks is done: what is measured now is the page alone.
  await page.locator('.problems-panel h2:not([data-checking])').waitFor();
  const graph = await page.locator('.tree-graph').boundingBox();
  if (!graph) throw new Error('There is no graph to draw to and fro.');
  const [x, y] = [graph.x + graph.width / 2, graph.y + 40];
  const panned = await framesWhile(page, async () => {
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let step = 1; step <= 90; step += 1) await page.mouse.move(x - 140 * Math.sin(step / 7), y + 100 * Math.sin(step / 5));
    await page.mouse.up();
  });
  const title = page.getByRole('textbox', { name: 'Title', exact: true });
  await title.press('End');
  const typed = await framesWhile(page, () => title.pressSequentially(' at the very end of it', { delay: 40 }));
  return { opened, panned: percentile(panned, 0.95), typed: percentile(typed, 0.95) };
}

const bench: Bench = async () => {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../.scripts/build.mjs', import.meta.url))], { stdio: 'ignore' });
  const trees = await mkdtemp(join(tmpdir(), 'ohmward-desk-bench-'));
  await writeFile(join(trees, 'long.tree.mdx'), longTree(LONG));
  await writeFile(join(trees, 'short.tree.mdx'), longTree(SHORT));
  const server = await startServer({ port: 0, host: '127.0.0.1', trees });
  const browser = await openBrowser();
  const taken: { long: Measured[]; short: Measured[] } = { long: [], short: [] };
  try {
    for (let turn = 0; turn < TURNS; turn += 1) {
      for (const name of turn % 2 === 0 ? (['long', 'short'] as const) : (['short', 'long'] as const)) {
        const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
        taken[name].push(await measure(await context.newPage(), server.url, name));
        await context.close();
      }
    }
  } finally {
    await browser.close();
    await server.close();
    await rm(trees, { recursive: true });
  }
  const row = (what: string, of: keyof Measured) =>
    benchRow(
      `desk, tree of ${LONG} steps: ${what}`,
      median(taken.long.map((one) => one[of])),
      median(taken.short.map((one) => one[of])),
      `the same page with a tree of ${SHORT} steps`,
    );
  return [
    row('opening it, to the first list of problems', 'opened'),
    row('95th percentile of frames while the graph is drawn to and fro', 'panned'),
    row('95th percentile of frames while a title is typed', 'typed'),
  ];
};

export default bench;
