import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { TreeFolder } from '../../../engine/cli/tree-folder.ts';
import { type Suspects, trailOfLog, WalkAdvisor } from '../../../engine/suspects/index.ts';
import { buildEdition, type WalkableEdition, type WalkLine, walkableEdition } from '../../../engine/walk/index.ts';
import { type RunningServer, SHIPPED_TREES, startServer } from '../../../shared/crew/serve.ts';
import { FieldDriver } from './field-driver.ts';
import { FLAGSHIP } from './flagship-paths.ts';
import { HiddenFault, storedLines } from './hidden-fault.ts';
import { pageErrors } from './page-errors.ts';
import { Phone } from './phone.ts';

const TREE = 'no-water-at-the-pad';
const WIRING = 'own transformer';
const BENCH = 'own-transformer';
const STANDARDS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

function flagship(): WalkableEdition {
  const built = buildEdition(TREE, new TreeFolder(SHIPPED_TREES).sources(TREE));
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  return walkableEdition(built.value);
}

const edition = flagship();

function hide(fault: string): HiddenFault {
  const bench = edition.compiled.edition.benches[BENCH];
  if (!bench) throw new Error(BENCH);
  return new HiddenFault(edition, bench, fault);
}

/** What the engine itself leaves possible after a log. */
function suspectsAfter(lines: readonly WalkLine[]): Suspects {
  const { walk, trail } = trailOfLog(edition, lines[0]?.walk ?? '', lines);
  return new WalkAdvisor(edition.compiled).suspects(walk, trail);
}

let server: RunningServer;
let phone: Phone;
let field: FieldDriver;
let errors: readonly string[];

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
  const page = await phone.on();
  errors = pageErrors(page);
  field = new FieldDriver(page, server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

const sheet = () => field.page.locator('dialog.sheet');

/** Opens the call on a house whose wiring is told. */
async function openHouse(site: string): Promise<void> {
  await field.openCall(FLAGSHIP, site);
  await field.readCautions();
  await field.page.getByRole('button', { name: /How is this humidifier wired/ }).tap();
  await sheet().locator('.choice', { hasText: WIRING }).tap();
  await sheet().waitFor({ state: 'detached' });
  await field.start();
}

/** Opens the suspects, and waits until what is shown is of the walk as it stands. */
async function openSuspects(): Promise<void> {
  await field.page.getByRole('button', { name: /^Suspects/ }).tap();
  await sheet().locator('.suggestion[aria-busy="false"]').waitFor();
}

async function closeSheet(): Promise<void> {
  await sheet().getByRole('button', { name: 'Close' }).tap();
  await sheet().waitFor({ state: 'detached' });
}

/** Takes what is suggested by its button; false where there is none, because the walk goes there as it is. */
async function takeSuggestion(): Promise<boolean> {
  await openSuspects();
  const button = sheet()
    .locator('.going-there')
    .getByRole('button', { name: /^Go to/ });
  if ((await button.count()) === 0) {
    await closeSheet();
    return false;
  }
  await button.tap();
  await sheet().waitFor({ state: 'detached' });
  return true;
}

/** Works the open step with what the hidden fault shows there. */
async function work(hidden: HiddenFault): Promise<void> {
  const answer = hidden.answer(await storedLines(field.page));
  await field.step(answer === undefined ? {} : { [await field.title()]: answer });
}

const atFinding = (): Promise<boolean> => field.page.getByRole('button', { name: /^Accept/ }).isVisible();

const jumps = (lines: readonly WalkLine[]) => lines.flatMap(({ event }) => (event.type === 'jumped' ? [event] : []));

describe('a tech on a call where nobody landed the feed wire', () => {
  const hidden = hide('feed-missing');
  let inOrder: { readonly minutes: number; readonly steps: number };

  test('finds it in the tree’s order', async () => {
    await openHouse('Elm Street 12');
    while (!(await atFinding())) await work(hidden);
    await expect.poll(() => field.title()).toBe('Feed wire missing');
    const lines = await storedLines(field.page);
    expect(jumps(lines)).toEqual([]);
    inOrder = { minutes: hidden.minutes(lines), steps: (await field.counts()).Path ?? 0 };
  });

  test('takes the suggestion twice and ends on the same part in fewer minutes and fewer steps', async () => {
    await openHouse('Oak Street 3');
    let taken = 0;
    while (!(await atFinding())) {
      if (await takeSuggestion()) taken += 1;
      if (!(await atFinding())) await work(hidden);
    }
    await expect.poll(() => field.title()).toBe('Feed wire missing');
    expect(taken).toBe(2);
    const lines = await storedLines(field.page);
    expect(jumps(lines)).toHaveLength(2);
    for (const { why } of jumps(lines)) expect(why).toMatch(/^suggested: /);
    expect(hidden.minutes(lines)).toBeLessThan(inOrder.minutes);
    const worked = lines.filter(({ event }) => event.type === 'read' || event.type === 'looked' || event.type === 'did').length;
    expect(worked).toBeLessThan(inOrder.steps - 1);
  });

  test('sees as much said of each suspect as the engine makes of the log, live', async () => {
    const lines = await storedLines(field.page);
    const { faults, unknown } = suspectsAfter(lines);
    await openSuspects();
    const first = sheet().locator('.suspect').first();
    await expect.poll(() => first.locator('.suspect-name').textContent()).toBe('Feed missing');
    await expect.poll(() => first.locator('.suspect-says').textContent()).toBe('Nobody landed the feed wire from R to K1.');
    await expect.poll(() => first.locator('.suspect-percent').textContent()).toBe(`${Math.round((faults[0]?.probability ?? 0) * 100)}\u00a0%`);
    const other = sheet().locator('.suspect', { hasText: 'Something that this bench does not know' });
    await expect.poll(() => other.locator('.suspect-percent').textContent()).toBe(`${Math.round(unknown * 100)}\u00a0%`);
    await expect.poll(() => sheet().locator('.suspect', { hasText: 'Nothing wrong' }).count()).toBe(1);
    await sheet().getByText('ruled out by what was found').click();
    await expect.poll(() => sheet().locator('.suspect-out li').count()).toBe(faults.length - 1);
    await closeSheet();
  });

  test('is brought to a report by the ritual, jumps and all', async () => {
    await field.closeFixed('water runs');
    await expect.poll(() => field.page.locator('.report').textContent()).toContain('Feed wire missing');
  });
});

describe('out of the tree’s order and back', () => {
  const hidden = hide('coil-open');

  test('the suggestion shows where the leads go and what each outcome would leave', async () => {
    await openHouse('Pine Road 8');
    await takeSuggestion();
    await work(hidden);
    await openSuspects();
    await expect.poll(() => sheet().locator('.suggestion h3').textContent()).toBe('Volts at the valve');
    await expect.poll(() => sheet().locator('.lead-tag dd').allTextContents()).toEqual(['V1', 'V2']);
    const drawing = sheet().locator('.step-ladder svg[role="img"]').first();
    await expect.poll(() => drawing.getAttribute('aria-label')).toMatch(/red lead on V1/i);
    const leaves = await sheet().locator('.suggestion-shows tbody tr').allTextContents();
    expect(leaves.length).toBeGreaterThan(2);
    expect(leaves.join()).toContain('splice corroded');
    // What is looked at instead is drawn in its place, and the best is then among the others.
    await sheet()
      .getByText(/other things? to find out/)
      .click();
    const other = sheet().locator('.other-reading').first();
    const title = await other.locator('.other-title').textContent();
    await other.click();
    await expect.poll(() => sheet().locator('.suggestion h3').textContent()).toBe(title);
    await expect.poll(() => sheet().locator('.other-title').allTextContents()).toContain('Volts at the valve');
    await closeSheet();
  });

  test('where the tree’s order waits is said on the step, and one press goes back, with all that was found', async () => {
    const { page } = field;
    await page.getByText('The tree’s order waits at “Water at the pad”.').waitFor();
    const possible = await page.locator('.walk-bar-suspects').textContent();
    await field.press('Back to the tree’s order');
    await page.getByRole('heading', { name: 'Water at the pad', level: 1 }).waitFor();
    await expect.poll(() => page.getByText('The tree’s order waits').count()).toBe(0);
    const lines = await storedLines(page);
    expect(jumps(lines).map(({ step }) => step)).toEqual(['the-control-asks', 'water-at-the-pad']);
    await openSuspects();
    await expect.poll(() => page.locator('.walk-bar-suspects').textContent()).toBe(possible);
    await closeSheet();
    await work(hidden);
    await expect.poll(() => field.title()).toBe('The control asks');
  });

  test('a reading that is on the screen counts, and is kept when the suggestion is taken from it', async () => {
    const { page } = field;
    const asks = hidden.answer(await storedLines(page)) ?? '';
    await field.answer({ 'The control asks': asks });
    await page.locator('.verdict').waitFor();
    await openSuspects();
    await sheet().getByText('What is on the screen counts.').waitFor();
    await sheet()
      .locator('.going-there')
      .getByRole('button', { name: /^Go to/ })
      .tap();
    await sheet().waitFor({ state: 'detached' });
    const events = (await storedLines(page)).map(({ event }) => event.type);
    expect(events.slice(-3)).toEqual(['looked', 'went-on', 'jumped']);
    await expect.poll(() => field.title()).toBe('Volts at the valve');
  });

  test('a reading that does not fit is said aloud, with the way out', async () => {
    // More than the transformer has: no fault of the bench gives it (27 V without load, 24 V rated).
    await field.answer({ 'Volts at the valve': '120' });
    await field.page.getByRole('button', { name: /^Suspects/ }).tap();
    const said = sheet().locator('.contradiction');
    await said.waitFor();
    await expect.poll(() => said.textContent()).toContain('120 V');
    await expect.poll(() => said.textContent()).toContain('Read it once more');
    await expect.poll(() => said.getAttribute('role')).toBe('alert');
    await closeSheet();
  });
});

describe('a suggestion that is read without what is jumpered now', () => {
  test('asks to put that back first, and goes there once it is', async () => {
    const { page } = field;
    const hidden = hide('coil-open');
    await openHouse('Walnut Way 2');
    while ((await field.title()) !== 'What hangs on V1 and V2') await work(hidden);
    await expect.poll(() => field.counts()).toMatchObject({ 'Put back': 1 });
    await openSuspects();
    await sheet().getByText('For “Power off for the fuse”, first put back 1 thing').waitFor();
    await expect
      .poll(() =>
        sheet()
          .getByRole('button', { name: /^Go to/ })
          .count(),
      )
      .toBe(0);
    await sheet().getByRole('button', { name: 'Jumper is off' }).tap();
    await sheet()
      .getByRole('button', { name: /^Go to “Power off for the fuse”/ })
      .tap();
    await page.getByRole('heading', { name: 'Power off for the fuse', level: 1 }).waitFor();
    await expect.poll(() => field.counts()).toMatchObject({ 'Put back': 0 });
    expect((await storedLines(page)).slice(-2).map(({ event }) => event.type)).toEqual(['put-back', 'jumped']);
  });
});

describe('with no service there at all', () => {
  test('the suspects are worked out on the phone', async () => {
    const own = await startServer({ port: 0, host: '127.0.0.1' });
    const alone = await Phone.make();
    const before = field;
    try {
      field = new FieldDriver(await alone.on(), own.url);
      await field.openStart();
      await field.page.getByText('they work without a signal').waitFor();
      await alone.off();
      await own.close();
      field = new FieldDriver(await alone.on(), own.url);
      await openHouse('Birch Lane 5');
      expect(await takeSuggestion()).toBe(true);
      await expect.poll(() => field.title()).toBe('The control asks');
    } finally {
      field = before;
      await alone.throwAway();
      await own.close();
    }
  });
});

describe('the sheet', () => {
  test.each(['light', 'dark'] as const)('has nothing serious for axe in the %s theme, and is no wider than the phone', async (colorScheme) => {
    const { page } = field;
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await openHouse('Cedar Court 1');
    await takeSuggestion();
    await work(hide('coil-open'));
    await openSuspects();
    for (const fold of await sheet().locator('.suspect-fold > summary').all()) await fold.click();
    const { violations } = await new AxeBuilder({ page }).withTags(STANDARDS).analyze();
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id, nodes }) => [id, nodes[0]?.target])).toEqual(
      [],
    );
    const wide = await page.evaluate(() => {
      const body = document.querySelector('.sheet-body');
      return [document.documentElement, body].map((element) => (element ? element.scrollWidth - element.clientWidth : -1));
    });
    expect(wide).toEqual([0, 0]);
    await closeSheet();
  });

  test('a worker that does not start is told, and the walk goes on', async () => {
    const { page } = field;
    const own = await startServer({ port: 0, host: '127.0.0.1' });
    const broken = await Phone.make();
    const before = field;
    try {
      field = new FieldDriver(await broken.on(), own.url);
      await field.page
        .context()
        .route(/suspects-worker/, (route) => route.fulfill({ contentType: 'text/javascript', body: 'throw new Error("gone")' }));
      await openHouse('Maple Drive 9');
      await field.page.getByRole('button', { name: /^Suspects/ }).tap();
      await sheet().getByText('What is still possible could not be worked out.').waitFor();
      await sheet().getByText('The call and its log are not touched by this.').waitFor();
      await sheet().getByRole('button', { name: 'Try again' }).waitFor();
      await closeSheet();
      await work(hide('coil-open'));
      await expect.poll(() => field.title()).toBe('The control asks');
    } finally {
      field = before;
      await broken.throwAway();
      await own.close();
    }
    expect(page.isClosed()).toBe(false);
  });

  test('nothing went wrong on the way', () => {
    expect(errors).toEqual([]);
  });
});
