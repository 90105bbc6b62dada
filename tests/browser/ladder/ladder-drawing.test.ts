import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asFound, type Bench, prepare, solve } from '../../../engine/bench/index.ts';
import { knownFault, type LadderState, layoutLadder, stateOfSolved } from '../../../shared/ui/ladder/index.ts';
import { textBox } from '../../../shared/ui/ladder/text-box.ts';
import { openBrowser } from '../browser.ts';
import { type DrawingServer, startDrawingServer } from './drawing-server.ts';
import type { Drawing } from './page/drawing-page.tsx';
import { SHIPPED } from './shipped-benches.ts';

let browser: Browser;
let server: DrawingServer;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), startDrawingServer()]);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const solvedState = (bench: Bench): LadderState => {
  const solved = solve(prepare(bench), asFound(bench));
  return solved.ok ? stateOfSolved(solved) : {};
};

async function open(drawing: Drawing, look: { readonly width?: number; readonly colorScheme?: 'light' | 'dark' } = {}): Promise<Page> {
  const { width = 360, colorScheme = 'light' } = look;
  const context = await browser.newContext({ viewport: { width, height: 640 }, colorScheme });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
  page.on('pageerror', (error) => errors.push(error.message));
  server.show(drawing);
  await page.goto(server.url);
  await page.locator('.ladder-picture').waitFor();
  await page.evaluate(() => document.fonts.ready);
  expect(errors).toEqual([]);
  return page;
}

const first = SHIPPED.find(([file]) => file.startsWith('own-transformer'))?.[1];
if (!first) throw new Error('the flagship bench is not there');
const flagship: Bench = first;

describe.each(SHIPPED)('%s', (_file, bench) => {
  it('fits a phone, with text that can be read and that lies where it was counted on', async () => {
    const page = await open({ bench, state: solvedState(bench) });
    const found = await page.evaluate(() => ({
      scrolls: document.querySelector('.ladder-scroll')?.scrollWidth !== document.querySelector('.ladder-scroll')?.clientWidth,
      width: document.querySelector('.ladder')?.clientWidth ?? 0,
      texts: [...document.querySelectorAll<SVGTextElement>('.ladder-text')].map((text) => {
        const { x, width } = text.getBBox();
        return {
          text: text.textContent,
          x,
          width,
          size: Number.parseFloat(getComputedStyle(text).fontSize),
          family: getComputedStyle(text).fontFamily,
        };
      }),
    }));
    expect(found.scrolls).toBe(false);
    const boxes = layoutLadder(bench, { width: found.width, state: solvedState(bench) }).texts.map((text) => ({
      text: text.text,
      box: textBox(text),
    }));
    expect(found.texts.map(({ text }) => text)).toEqual(boxes.map(({ text }) => text));
    found.texts.forEach(({ text, x, width, size, family }, i) => {
      const box = boxes[i]?.box;
      expect(family).toContain('B612');
      expect(size).toBeGreaterThanOrEqual(11);
      expect([text, x >= (box?.x ?? 0) - 1, x + width <= (box?.x ?? 0) + (box?.width ?? 0) + 1]).toEqual([text, true, true]);
    });
    await page.context().close();
  });
});

describe('picking terminals', () => {
  it('has a fingertip’s room for each', async () => {
    const page = await open({ bench: flagship, picks: true });
    const targets = await page.locator('.ladder-target').all();
    expect(targets.length).toBe(flagship.terminals.length);
    for (const target of targets) {
      const box = await target.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    }
    const centers = await Promise.all(targets.map(async (target) => (await target.boundingBox()) ?? { x: 0, y: 0 }));
    for (const [i, one] of centers.entries()) {
      for (const other of centers.slice(i + 1)) expect(Math.max(Math.abs(one.x - other.x), Math.abs(one.y - other.y))).toBeGreaterThanOrEqual(44);
    }
    await page.context().close();
  });

  it('picks by touch and by keyboard, and goes from one to the next by arrow', async () => {
    const page = await open({ bench: flagship, picks: true });
    await page.getByRole('button', { name: 'terminal V1', exact: true }).click();
    await expect.poll(() => page.title()).toBe('picked V1');
    await page.getByRole('button', { name: 'terminal K1', exact: true }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.title()).toBe('picked K1');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press(' ');
    await expect.poll(() => page.title()).toBe('picked K2');
    await page.context().close();
  });

  it('can be reached by Tab, every one', async () => {
    const page = await open({ bench: flagship, picks: true });
    const reached: string[] = [];
    for (let i = 0; i < flagship.terminals.length; i += 1) {
      await page.keyboard.press('Tab');
      reached.push((await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))) ?? '');
    }
    expect(reached.toSorted()).toEqual(flagship.terminals.map((terminal) => `terminal ${terminal}`).toSorted());
    await page.context().close();
  });
});

describe('focus', () => {
  it('shows what lies about the leads first, and the whole circuit with a press', async () => {
    const page = await open({ bench: flagship, leads: { red: 'K1', black: 'K2' }, focus: ['K1', 'K2'] });
    const shown = (text: string) => page.locator('.ladder-text', { hasText: new RegExp(`^${text}$`) }).count();
    await expect.poll(() => shown('K1')).toBe(1);
    await expect.poll(() => shown('L1')).toBe(0);
    const more = page.getByRole('button', { name: 'Show the whole circuit' });
    expect(await more.evaluate((button) => button.getBoundingClientRect().height)).toBeGreaterThanOrEqual(44);
    await more.click();
    await expect.poll(() => shown('L1')).toBe(1);
    await page.context().close();
  });
});

describe('the drawing in its place', () => {
  it('is laid out anew when its place becomes wider', async () => {
    const page = await open({ bench: flagship });
    const height = () => page.locator('.ladder-picture').evaluate((picture) => picture.clientHeight);
    const narrow = await height();
    await page.setViewportSize({ width: 1200, height: 800 });
    await expect.poll(height).toBeLessThan(narrow);
    await page.context().close();
  });

  it.each(['light', 'dark'] as const)('has nothing that axe finds wrong in the %s theme, with everything on it', async (colorScheme) => {
    const fault = knownFault(flagship, 'coil-open');
    const state: LadderState = {
      ...solvedState(flagship),
      jumpers: [{ from: 'K1', to: 'K2' }],
      lifted: ['coil-hot'],
      forced: { 'heat-call': 'on' },
      ...(fault && { faults: [fault] }),
    };
    for (const picks of [false, true]) {
      const page = await open(
        { bench: flagship, state, leads: { red: 'coil-hot', black: 'C' }, picks, mechanical: true, focus: ['coil-hot', 'C'] },
        { colorScheme },
      );
      const { violations } = await new AxeBuilder({ page }).include('.ladder').analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
      await page.context().close();
    }
  });
});
