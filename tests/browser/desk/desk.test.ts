import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContextOptions, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type RunningServer, SHIPPED_TREES, startServer } from '../../../shared/crew/serve.ts';
import { openBrowser } from '../browser.ts';

const LAPTOP: BrowserContextOptions = { viewport: { width: 1280, height: 800 } };
const NARROW: BrowserContextOptions = { viewport: { width: 360, height: 740 } };
const FLAGSHIP = 'no-water-at-the-pad';

let browser: Browser;
let server: RunningServer;
/** What the pages of a test complained of: a script error, or something that the content security policy stopped. */
let complaints: string[] = [];

beforeAll(async () => {
  browser = await openBrowser();
  server = await startServer({ port: 0, host: '127.0.0.1' });
});

afterAll(async () => {
  await browser.close();
  await server.close();
});

/** Before its server goes: a page that still asks for something would complain of it. */
const closePages = (): Promise<unknown> => Promise.all(browser.contexts().map((context) => context.close()));

afterEach(async () => {
  await closePages();
  const found = complaints;
  complaints = [];
  expect(found).toEqual([]);
});

async function open(address: string, options: BrowserContextOptions = LAPTOP, at: RunningServer = server): Promise<Page> {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  await page.goto(`${at.url}${address}`);
  return page;
}

async function seriousIn(page: Page, only?: string[]): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  const { violations } = await (only ? axe.withRules(only) : axe).analyze();
  return violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

const widerThanWindow = (page: Page): Promise<boolean> => page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

/** A server on a copy of the shipped trees that a test may change. */
async function onCopy(use: (server: RunningServer, trees: string) => Promise<void>): Promise<void> {
  const trees = await mkdtemp(join(tmpdir(), 'ohmward-desk-'));
  await cp(SHIPPED_TREES, trees, { recursive: true });
  const copy = await startServer({ port: 0, host: '127.0.0.1', trees });
  try {
    await use(copy, trees);
  } finally {
    await closePages();
    await copy.close();
    await rm(trees, { recursive: true });
  }
}

/** As a reader of the file counts and names its steps: the second-level headings. */
const headingsOf = (source: string): string[] => [...source.matchAll(/^## (.+)$/gm)].map((match) => (match[1] ?? '').trim());

describe('the front door', () => {
  test('leads to both apps, and nothing on it is hard to use', async () => {
    const page = await open('/');
    expect(await seriousIn(page)).toEqual([]);
    await page.getByRole('link', { name: /^Desk/ }).click();
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    await expect.poll(() => page.url()).toBe(`${server.url}/desk/`);
  });
});

describe('the shelf', () => {
  test('lists every tree of the folder with its complaint, its steps, its problems and its edition', async () => {
    const page = await open('/desk/');
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    const files = (await readdir(SHIPPED_TREES)).filter((file) => file.endsWith('.tree.mdx'));
    await expect.poll(() => page.locator('.shelf > .shelf-table tbody tr').count()).toBe(files.length);
    const benches = (await readdir(join(SHIPPED_TREES, 'benches'))).filter((file) => file.endsWith('.bench.yaml'));
    await expect.poll(() => page.locator('.shelf-benches tbody tr').count()).toBe(benches.length);
    const source = await readFile(join(SHIPPED_TREES, `${FLAGSHIP}.tree.mdx`), 'utf8');
    const row = page.locator('.shelf > .shelf-table tbody tr').filter({ hasText: 'No water at the pad' });
    await expect.poll(() => row.locator('td').first().textContent()).toBe(String(headingsOf(source).length));
    await expect.poll(() => row.textContent()).toContain(/^complaint: (.+)$/m.exec(source)?.[1]);
    const editions = (await (await fetch(`${server.url}/editions/index.json`)).json()) as { name: string; hash: string }[];
    await expect.poll(() => row.textContent()).toContain(editions.find(({ name }) => name === FLAGSHIP)?.hash.slice(0, 8));
  });

  test('is searched by complaint, step and fault', async () => {
    const page = await open('/desk/');
    const search = page.getByRole('searchbox');
    await search.fill('orifice');
    await expect.poll(() => page.locator('.shelf > .shelf-table tbody tr').count()).toBe(1);
    await expect.poll(() => page.getByRole('status').textContent()).toMatch(/^1 of \d+ trees$/);
    await search.fill('orifice of a teapot');
    await page.getByRole('button', { name: /^Show all/ }).click();
    await expect.poll(() => search.inputValue()).toBe('');
    await expect.poll(() => page.locator('.shelf > .shelf-table tbody tr').count()).toBeGreaterThan(1);
  });

  test('leads to the walk of a tree', async () => {
    const page = await open('/desk/');
    const walk = page.getByRole('link', { name: 'Walk it: No water at the pad' });
    await expect.poll(() => walk.getAttribute('href')).toBe(`/field/#/tree/${FLAGSHIP}`);
    await walk.click();
    await page.getByRole('heading', { level: 1, name: 'No water at the pad' }).waitFor();
    expect(page.url().startsWith(`${server.url}/field/`)).toBe(true);
  });

  test('fits a narrow window', async () => {
    const page = await open('/desk/', NARROW);
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    expect(await widerThanWindow(page)).toBe(false);
  });

  test.each(['light', 'dark'] as const)('has nothing serious for axe in the %s theme', async (colorScheme) => {
    const page = await open('/desk/', { ...LAPTOP, colorScheme });
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    expect(await seriousIn(page)).toEqual([]);
  });

  test('with no trees says how to begin', async () => {
    const trees = await mkdtemp(join(tmpdir(), 'ohmward-none-'));
    const empty = await startServer({ port: 0, host: '127.0.0.1', trees });
    const page = await open('/desk/', LAPTOP, empty);
    await page.getByRole('heading', { name: 'The shelf is empty' }).waitFor();
    await closePages();
    await empty.close();
    await rm(trees, { recursive: true });
  });

  test('that cannot be fetched says what happened, and comes when it can', async () => {
    const page = await open('/');
    await page.context().route('**/trees/', (route) => route.abort());
    await page.goto(`${server.url}/desk/`);
    await page.getByRole('heading', { name: 'The trees could not be shown' }).waitFor();
    expect(await seriousIn(page)).toEqual([]);
    await page.context().unroute('**/trees/');
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    // The request that was cut off is told by the browser itself.
    expect(complaints.filter((text) => !text.includes('net::ERR_FAILED'))).toEqual([]);
    complaints = [];
  });
});

describe('a tree as a document', () => {
  test('has every step of the file in its order, and every way on leads to one that is there', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}`);
    await page.getByRole('heading', { level: 1, name: 'No water at the pad' }).waitFor();
    const source = await readFile(join(SHIPPED_TREES, `${FLAGSHIP}.tree.mdx`), 'utf8');
    const titles = await page.locator('.step h2').allTextContents();
    expect(titles.map((title) => title.replace(/^\d+\s+/, ''))).toEqual(headingsOf(source));
    const inFile = [...source.matchAll(/^- .+: \[.+\]\(.+\)$/gm)].length;
    const ways = await page.locator('.ways td a').evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
    expect(ways).toHaveLength(inFile);
    const ids = await page.locator('section.step').evaluateAll((sections) => sections.map(({ id }) => id));
    for (const way of ways.filter((href) => href.startsWith(`#/tree/${FLAGSHIP}/`))) expect(ids).toContain(`step-${way.split('/').at(-1)}`);
  });

  test('a way on goes to its step, puts the keyboard there, and back comes back', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const way = page.locator('.ways td a').first();
    const title = (await way.textContent())?.replace(/^\d+\s+/, '');
    await way.click();
    await expect.poll(() => page.evaluate(() => document.activeElement?.querySelector('h2')?.textContent)).toContain(title);
    await expect.poll(() => page.evaluate(() => Math.abs(document.activeElement?.getBoundingClientRect().top ?? 999) < 400)).toBe(true);
    await expect.poll(() => page.locator('.outline [aria-current]').textContent()).toContain(title);
    await page.goBack();
    await expect.poll(() => page.url()).toBe(`${server.url}/desk/#/tree/${FLAGSHIP}`);
  });

  test('shows the cautions with their signal words', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const source = await readFile(join(SHIPPED_TREES, `${FLAGSHIP}.tree.mdx`), 'utf8');
    const inFile = [...source.matchAll(/<Caution signal="(\w+)"/g)].map((match) => match[1]);
    await expect.poll(() => page.locator('.caution-plate-word').allTextContents()).toEqual(inFile);
  });

  test('has nothing serious for axe, and enough contrast in the dark too', async () => {
    // A short tree: it has every kind of part that a long one has, and axe looks at each of them.
    const page = await open('/desk/#/tree/condensate-or-float-switch-holds-off');
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await seriousIn(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await seriousIn(page, ['color-contrast'])).toEqual([]);
  });

  test('fits a narrow window, and paper without what only a screen needs', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}`, NARROW);
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await widerThanWindow(page)).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(
      await page.locator('.desk-bar, .outline, .document-actions').evaluateAll((parts) => parts.every((part) => part.getClientRects().length === 0)),
    ).toBe(true);
    await expect.poll(() => page.locator('.step').first().isVisible()).toBe(true);
  });

  test('that there is not says so and leads back', async () => {
    const page = await open('/desk/#/tree/not-here');
    await page.getByRole('heading', { name: 'There is no such tree' }).waitFor();
    await page.getByRole('link', { name: 'Go to the shelf' }).click();
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  });

  test('an address that leads nowhere says so', async () => {
    const page = await open('/desk/#/elsewhere');
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor();
  });
});

describe('a bench', () => {
  test('shows every fault and part of its file, and the tree that is checked against it', async () => {
    const page = await open('/desk/');
    const source = await readFile(join(SHIPPED_TREES, 'benches', 'own-transformer.bench.yaml'), 'utf8');
    await page.getByRole('link', { name: /^title: (.+)$/m.exec(source)?.[1] ?? '' }).click();
    await page.getByRole('table', { name: /^Faults/ }).waitFor();
    // In the file, a fault is a line that says what its part becomes.
    const inFile = [...source.matchAll(/^ {2}([a-z0-9-]+): \{ part: /gm)].map((match) => match[1] ?? '');
    const shown = await page
      .getByRole('table', { name: /^Faults/ })
      .locator('tbody th')
      .allTextContents();
    expect(shown.toSorted()).toEqual(inFile.toSorted());
    await expect.poll(() => page.getByRole('table', { name: 'Parts' }).textContent()).toContain('between V1 to V2');
    expect(await seriousIn(page)).toEqual([]);
    await page.getByRole('link', { name: 'No water at the pad' }).click();
    await page.getByRole('heading', { level: 1, name: 'No water at the pad' }).waitFor();
  });

  test('that is broken shows where, and one that is not there says so', async () => {
    await onCopy(async (copy, trees) => {
      await writeFile(
        join(trees, 'benches', 'broken.bench.yaml'),
        'title: Broken\nterminals: [R, C]\nparts:\n  coil: { kind: spring, between: [R, C] }\n',
      );
      const page = await open('/desk/#/bench/broken', NARROW, copy);
      await page.locator('.problem').first().waitFor();
      await expect.poll(() => page.locator('.problem').first().textContent()).toContain('line 4');
      expect(await widerThanWindow(page)).toBe(false);
      await page.goto(`${copy.url}/desk/#/bench/not-here`);
      await page.getByRole('heading', { name: 'There is no such bench' }).waitFor();
    });
  });
});

describe('problems', () => {
  const BROKEN = '<Reading takes="ac-voltage" across="R to C" />';

  test('are shown with line, column, the line itself and the way out; such a tree is not walked', async () => {
    await onCopy(async (copy, trees) => {
      const source = `---\ntitle: Half written\ncomplaint: It hums.\nhandoff: stop\n---\n\n## First\n\n${BROKEN}\n\n<Next>\n\n- below 5 ohm: [Stop](#stop)\n- otherwise: [Gone](#gone)\n\n</Next>\n\n## Stop\n\n<Handoff to="the senior tech" />\n`;
      await writeFile(join(trees, 'half-written.tree.mdx'), source);
      const page = await open('/desk/', LAPTOP, copy);
      const row = page.locator('.shelf > .shelf-table tbody tr').filter({ hasText: 'Half written' });
      await row.waitFor();
      await expect.poll(() => row.getByRole('link', { name: /^Walk it/ }).count()).toBe(0);
      await expect.poll(() => row.textContent()).toContain('not published');
      await row.getByRole('link', { name: /error/ }).click();
      const mismatch = page.locator('.problem').filter({ hasText: 'unit-mismatch' });
      await mismatch.waitFor();
      const line = source.split('\n').findIndex((text) => text.includes('below 5 ohm')) + 1;
      await expect.poll(() => mismatch.textContent()).toContain(`line ${line}, column `);
      await expect.poll(() => mismatch.locator('.excerpt').textContent()).toContain('- below 5 ohm: [Stop](#stop)');
      expect((await mismatch.locator('.problem-fix').textContent())?.length).toBeGreaterThan(10);
      await expect.poll(() => page.locator('.problem').filter({ hasText: 'missing-target' }).count()).toBe(1);
      await expect.poll(() => page.getByRole('link', { name: /^Walk it/ }).count()).toBe(0);
      expect(await seriousIn(page)).toEqual([]);
    });
  });

  test('a file that is no tree at all is a row with its problems', async () => {
    await onCopy(async (copy, trees) => {
      await writeFile(join(trees, 'scribble.tree.mdx'), 'import x from "y"\n\n<script>alert(1)</script>\n');
      const page = await open('/desk/#/tree/scribble', LAPTOP, copy);
      await page.getByRole('heading', { level: 1, name: 'scribble' }).waitFor();
      await expect.poll(() => page.locator('.problem').count()).toBeGreaterThan(0);
      expect(await widerThanWindow(page)).toBe(false);
    });
  });

  test('on a path, which only the benches show, are told with the path', async () => {
    await onCopy(async (copy, trees) => {
      // A zero on a meter that was not proved first is no proof that line voltage is off (live, dead, live: NFPA 70E 120.5).
      const file = join(trees, `${FLAGSHIP}.tree.mdx`);
      const source = await readFile(file, 'utf8');
      const unproved = source.replaceAll(/(turn humidifier-power off, remove jumper K1 to K2), prove the meter/g, '$1');
      expect(unproved).not.toBe(source);
      await writeFile(file, unproved);
      const page = await open(`/desk/#/tree/${FLAGSHIP}`, LAPTOP, copy);
      const problem = page.locator('.problem').filter({ hasText: 'meter-not-proved' }).first();
      await problem.waitFor();
      await expect.poll(() => problem.locator('.problem-path').textContent()).toContain('Close the circuit by hand');
    });
  });

  test('follow the file when the window is come back to', async () => {
    await onCopy(async (copy, trees) => {
      const file = join(trees, `${FLAGSHIP}.tree.mdx`);
      const page = await open(`/desk/#/tree/${FLAGSHIP}`, LAPTOP, copy);
      await page.getByRole('heading', { level: 1, name: 'No water at the pad' }).waitFor();
      await writeFile(file, (await readFile(file, 'utf8')).replace(/^title: .+$/m, 'title: No water, no reason'));
      await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
      await page.getByRole('heading', { level: 1, name: 'No water, no reason' }).waitFor();
    });
  });
});
