import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { blankTreeText } from '../../../author-ui/edit/blank-tree.ts';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { openBrowser } from '../browser.ts';

const LAPTOP: BrowserContextOptions = { viewport: { width: 1440, height: 900 } };
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

afterEach(async () => {
  await Promise.all(browser.contexts().map((context) => context.close()));
  const found = complaints;
  complaints = [];
  expect(found).toEqual([]);
});

async function openIn(context: BrowserContext, address: string): Promise<Page> {
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  await page.goto(`${server.url}${address}`);
  return page;
}

const open = async (address: string, options = LAPTOP): Promise<Page> => openIn(await browser.newContext(options), address);

async function seriousIn(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

/** A new tree, made on the shelf, with its editing page open. */
async function newTree(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'New tree', exact: true }).click();
  await page.getByLabel('What the crew calls it').fill(title);
  await page.getByRole('button', { name: 'Create' }).click();
  await page.getByRole('form', { name: 'The tree itself' }).waitFor();
}

const problems = (page: Page) => page.getByRole('region', { name: 'Problems' });
/** The latest text was checked to its last path, and nothing was found. */
const noProblems = (page: Page): Promise<void> =>
  expect.poll(async () => [await problems(page).textContent(), await problems(page).locator('[data-checking]').count()]).toEqual(['No problems', 0]);
const saved = (page: Page): Promise<void> => page.getByText('Saved in this browser').waitFor();

/** Finds a step by its title and opens its form. */
async function goToStep(page: Page, title: string): Promise<void> {
  const search = page.getByRole('combobox', { name: 'Find a step' });
  await search.fill(title);
  await search.press('Enter');
  await page.getByRole('form', { name: `Step: ${title}` }).waitFor();
}

async function addStep(page: Page, kind: string, title: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Add a step' }).selectOption({ label: kind });
  await page.getByRole('textbox', { name: 'Title', exact: true }).fill(title);
  await page.getByRole('form', { name: `Step: ${title}` }).waitFor();
}

const target = (page: Page, on: string) => page.getByRole('combobox', { name: `Where ${on} leads`, exact: true });

/** Chooses where a way leads by the title of the step, whatever its number. */
async function lead(page: Page, on: string, title: string): Promise<void> {
  const select = target(page, on);
  const value = await select
    .locator('option')
    .filter({ hasText: new RegExp(`^\\d+ ${title}$`) })
    .getAttribute('value');
  await select.selectOption(value);
}

/** The file of a tree as the desk would export it. */
async function exported(page: Page, title: string): Promise<string> {
  await page.getByLabel(`More for ${title}`).click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export' }).click();
  const stream = await (await download).createReadStream();
  const pieces: Buffer[] = [];
  for await (const piece of stream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces).toString('utf8');
}

describe('a new tree by forms only', () => {
  test('reaches no problems, and all of it is there after a reload in mid-edit', async () => {
    const page = await open('/desk/');
    await newTree(page, 'Bell does not ring');
    await noProblems(page);

    await page.getByLabel('Complaint', { exact: true }).fill('Somebody presses the button and nobody hears it.');
    await page.getByRole('button', { name: 'Add a setting' }).click();
    await page.getByRole('button', { name: 'Add a fact' }).click();
    await page.getByLabel('Asked as').fill("Volts on the transformer's label");
    await page.getByRole('textbox', { name: 'Name' }).first().fill('bell-volts');
    await page.getByLabel('Usual').fill('16 V');
    await page.getByLabel('From', { exact: true }).fill('16 V');
    await page.getByLabel('To', { exact: true }).fill('16 V');

    // The look: what can be seen, and where the second way leads.
    await goToStep(page, 'Try the complaint');
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Press the button');
    await page.getByLabel('Look at').fill('the bell, while a helper presses the button');
    await page.getByLabel('Way 1').fill('rings');
    await page.getByLabel('Way 2').fill('silent');
    await expect.poll(() => page.getByRole('textbox', { name: 'Text of the tree' }).textContent()).toContain('recheck: press-the-button');

    // A reading made from the way that leads to it, with three bands.
    await target(page, 'silent').selectOption({ label: 'New reading' });
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Volts at the bell');
    await page.getByLabel('Red lead on').fill('B1');
    await page.getByLabel('Black lead on').fill('B2');
    const addBand = page.getByRole('button', { name: 'Add a band' });
    await addBand.click();
    await page.getByLabel('Kind of band, way 1').selectOption({ label: 'below' });
    await page.getByLabel('Below, way 1').fill('2 V');
    await addBand.click();
    await page.getByLabel('Kind of band, way 2').selectOption({ label: 'from … to' });
    await page.getByLabel('From, way 2').fill('2 V');
    await page.getByLabel('To, way 2').fill('120 % of bell-volts');
    await addBand.click();
    await lead(page, 'below 2 V', 'Call the senior tech');

    // A finding, and an act in front of it.
    await addStep(page, 'Finding', 'Bell open');
    await page.getByLabel('Faults, with commas').fill('bell-open');
    await page.getByLabel('Repair', { exact: true }).fill('Replace the bell with one of the **same voltage**. Power off first.');
    await addStep(page, 'Act', 'Power off');
    await page.getByLabel('Action 1').selectOption({ label: 'Turn a setting' });
    await page.getByLabel('State', { exact: true }).selectOption('off');
    await page.getByRole('button', { name: 'Add a way on' }).click();
    await lead(page, 'done', 'Bell open');
    await goToStep(page, 'Volts at the bell');
    await lead(page, '2 V to 120 % of bell-volts', 'Power off');
    await page.getByRole('button', { name: 'Add a caution' }).click();
    await page.getByLabel('Signal word').selectOption({ label: 'Warning' });
    await noProblems(page);
    expect(await seriousIn(page)).toEqual([]);

    // Renaming follows: every link to the step has the new name.
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Volts at B1 and B2');
    await noProblems(page);
    await saved(page);
    await page.reload();
    await goToStep(page, 'Volts at B1 and B2');
    await expect.poll(() => page.getByLabel('To, way 2').inputValue()).toBe('120 % of bell-volts');
    await noProblems(page);

    await page.goto(`${server.url}/desk/`);
    const text = await exported(page, 'Bell does not ring');
    expect(text).toContain('- silent: [Volts at B1 and B2](#volts-at-b1-and-b2)');
    expect(text).toContain('bell-volts: { quantity: ac-voltage,');
    expect(text).toContain('<Act does="turn main-power off" />');
  });

  test('everything that was done is undone, one step at a time, back to blank and forward again', async () => {
    const page = await open('/desk/');
    await newTree(page, 'Undone');
    await noProblems(page);
    const text = page.getByRole('textbox', { name: 'Text of the tree' });
    const blank = await text.textContent();
    await page.getByLabel('Complaint', { exact: true }).fill('It hums.');
    await addStep(page, 'Act', 'Power off');
    await page.getByRole('button', { name: 'Add a caution' }).click();
    await text.click();
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('Typed at the end.');
    await expect.poll(() => text.textContent()).toContain('Typed at the end.');
    const full = await text.textContent();
    let steps = 0;
    for (let now = full; now !== blank && steps < 20; now = await text.textContent()) {
      await page.keyboard.press('Control+z');
      steps += 1;
      // One press more than there is to take back would take the tree itself.
      await expect.poll(() => text.textContent()).not.toBe(now);
    }
    await expect.poll(() => text.textContent()).toBe(blank);
    for (let step = 0; step < steps; step += 1) await page.keyboard.press('Control+Shift+Z');
    await expect.poll(() => text.textContent()).toBe(full);
  });
});

describe('the text', () => {
  test('is in step with the forms, either way, and a broken one waits without losing anything', async () => {
    const page = await open('/desk/');
    await newTree(page, 'Two ways');
    await goToStep(page, 'Try the complaint');
    const text = page.getByRole('textbox', { name: 'Text of the tree' });
    await text.getByText('at=').first().waitFor();
    // A misspelled component: the form waits, the problem has its fix, and one press takes it.
    await text.getByText('Look', { exact: true }).first().dblclick();
    await page.keyboard.type('Lok');
    await page.locator('.pane-locked').waitFor();
    await problems(page).getByRole('button', { name: 'Change to Look' }).click();
    await noProblems(page);
    await page.getByLabel('Minutes').fill('9');
    await expect.poll(() => text.textContent()).toContain('minutes={9}');
  });

  test('of a shipped tree changes only in the edited line', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}/edit/power-at-r-and-c`);
    await page.getByRole('form', { name: 'Step: Power at R and C' }).waitFor();
    await page.getByLabel('Minutes').fill('4');
    await saved(page);
    await page.goto(`${server.url}/desk/`);
    const after = (await exported(page, 'No water at the pad')).split('\n');
    const before = (await (await fetch(`${server.url}/trees/${FLAGSHIP}.tree.mdx`)).text()).split('\n');
    expect(after).toHaveLength(before.length);
    expect(after.filter((line, at) => line !== before[at])).toEqual([
      '<Reading takes="ac-voltage" across="R to C" while="heat-call on, humidity-call on" minutes={4} />',
    ]);
  });
});

describe('going from one tree to another', () => {
  test('shows and edits nothing of the one before', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}/edit/power-at-r-and-c`);
    await page.getByRole('form', { name: 'Step: Power at R and C' }).waitFor();
    // Every form that is shown once the address is the other tree's, from the first moment on.
    await page.evaluate((name) => {
      const seen = new Set<string>();
      Object.assign(window, { seen });
      const look = (): void => {
        for (const form of document.querySelectorAll('form[aria-label]')) seen.add(form.getAttribute('aria-label') ?? '');
      };
      window.addEventListener('hashchange', () => {
        look();
        new MutationObserver(look).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
      });
      location.hash = `#/tree/${name}/edit`;
    }, 'condensate-or-float-switch-holds-off');
    const seenNow = () => page.evaluate(() => [...(window as unknown as { readonly seen: ReadonlySet<string> }).seen]);
    await expect.poll(seenNow).toContain('Step: Condensing unit');
    expect(await seenNow()).toEqual(['Step: Condensing unit']);
  });
});

describe('the scale', () => {
  test('an edge is moved with the keyboard, and the bands that meet there stay together', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}/edit/power-at-r-and-c`);
    const edge = page.getByRole('slider', { name: 'Edge 85 % of coil-rated' });
    await edge.focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('slider', { name: 'Edge 86 % of coil-rated' }).waitFor();
    await expect.poll(() => page.getByLabel('Below, way 1').inputValue()).toBe('86 % of coil-rated');
    await expect.poll(() => page.getByLabel('From, way 2').inputValue()).toBe('86 % of coil-rated');
  });
});

describe('what the benches show', () => {
  test('stands along the scale and in a table, and an edge moved into what a fault reads is warned of', async () => {
    const page = await open(`/desk/#/tree/${FLAGSHIP}/edit/volts-at-the-valve`);
    const rows = page.locator('.expected-row');
    await page.getByText('Dot: a usual house.').waitFor();
    await expect.poll(() => rows.count()).toBeGreaterThan(3);
    // No label runs into another: each row has a line of its own, and its words stay inside.
    await page.locator('.expected[data-state="now"]').waitFor();
    const { boxes, line } = await page.locator('.expected-rows').evaluate((whole) => {
      const boxOf = (one: Element): DOMRect => one.getBoundingClientRect().toJSON();
      return { boxes: [...whole.querySelectorAll('.expected-words')].map(boxOf), line: boxOf(whole) };
    });
    for (const [at, box] of boxes.entries()) {
      expect(box.left).toBeGreaterThanOrEqual(line.left - 1);
      expect(box.right).toBeLessThanOrEqual(line.right + 1);
      for (const other of boxes.slice(at + 1)) expect(box.bottom <= other.top + 1 || other.bottom <= box.top + 1).toBe(true);
    }
    await page.getByText('Bench values as a table').click();
    const open24 = page.getByRole('row').filter({ hasText: 'coil-open' }).filter({ hasText: 'own-transformer' });
    await expect.poll(() => open24.textContent()).toContain('26.9 V');
    // A shut cock is found before anybody measures here.
    await expect.poll(() => page.getByText(/^Not reached:/).textContent()).toContain('cock-shut');
    await expect.poll(() => page.locator('.expected-close').count()).toBe(0);
    await page.getByLabel('To, way 2').fill('26 V');
    await page
      .locator('.expected-close')
      .getByText(/coil-open.*may read.*“26 V to 125 % of coil-rated”/)
      .waitFor();
    // While there is an error, nothing is claimed.
    await page.getByLabel('Red lead on').fill('nowhere-at-all');
    await page.getByText('What the benches show waits until the errors are put right.').waitFor();
    await expect.poll(() => page.locator('.expected-close').count()).toBe(0);
  });
});

describe('a rename', () => {
  test('that another tree follows is one step of work', async () => {
    const page = await open('/desk/');
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    const one = blankTreeText('one', 'One');
    const two = blankTreeText('two', 'Two').replace('(#call-the-senior-tech)', '(one.tree.mdx#call-the-senior-tech)');
    const drop = await page.evaluateHandle(
      ([first, second]) => {
        const data = new DataTransfer();
        data.items.add(new File([first ?? ''], 'one.tree.mdx'));
        data.items.add(new File([second ?? ''], 'two.tree.mdx'));
        return data;
      },
      [one, two],
    );
    await page.locator('.shelf').dispatchEvent('drop', { dataTransfer: drop });
    await page.getByRole('link', { name: 'Edit: Two' }).waitFor();
    await page.getByRole('link', { name: 'Edit: One' }).click();
    await goToStep(page, 'Call the senior tech');
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Ring the shop');
    await saved(page);
    const textOf = async (name: string): Promise<string | null> => {
      await page.goto(`${server.url}/desk/#/tree/${name}/edit/try-the-complaint`);
      await page.getByRole('form', { name: 'Step: Try the complaint' }).waitFor();
      return page.getByRole('textbox', { name: 'Text of the tree' }).textContent();
    };
    await expect.poll(() => textOf('two')).toContain('(one.tree.mdx#ring-the-shop)');
    await page.keyboard.press('Control+z');
    await expect.poll(() => page.getByRole('textbox', { name: 'Text of the tree' }).textContent()).toContain('(one.tree.mdx#call-the-senior-tech)');
    await expect.poll(() => textOf('one')).toContain('(#call-the-senior-tech)');
  });
});

describe('bad input', () => {
  test('a broken file that is dropped in is kept, and says what is wrong with it', async () => {
    const page = await open('/desk/');
    await page.getByRole('heading', { name: 'Shelf' }).waitFor();
    const drop = await page.evaluateHandle(() => {
      const data = new DataTransfer();
      data.items.add(new File(['import x from "y"\n\n## Half {\n\u0000'], 'scribble.tree.mdx'));
      data.items.add(new File(['hello'], 'letter.docx'));
      return data;
    });
    await page.locator('.shelf').dispatchEvent('drop', { dataTransfer: drop });
    await page.getByText('scribble.tree.mdx is on the shelf.').waitFor();
    await page.getByText(/letter\.docx was not taken/).waitFor();
    await page.getByRole('link', { name: 'Edit: scribble' }).click();
    await page.locator('.pane-locked').waitFor();
    await expect.poll(() => problems(page).locator('.problem-row').count()).toBeGreaterThan(0);
    await expect.poll(() => page.getByRole('textbox', { name: 'Text of the tree' }).textContent()).toContain('Half {');
    await page.getByRole('link', { name: 'Shelf' }).click();
    await page.getByLabel('More for scribble').click();
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    await expect.poll(() => page.getByRole('link', { name: 'Edit: scribble' }).count()).toBe(0);
    await page.getByRole('button', { name: /^Undo: Remove/ }).click();
    await page.getByRole('link', { name: 'Edit: scribble' }).waitFor();
  });

  test('two windows on one tree see each other, and follow', async () => {
    const context = await browser.newContext(LAPTOP);
    const address = `/desk/#/tree/${FLAGSHIP}/edit/power-at-r-and-c`;
    const one = await openIn(context, address);
    await one.getByRole('form', { name: 'Step: Power at R and C' }).waitFor();
    const two = await openIn(context, address);
    await two.getByText('is open in another window too').waitFor();
    await one.getByText('is open in another window too').waitFor();
    await two.getByRole('form', { name: 'Step: Power at R and C' }).waitFor();
    await one.getByLabel('Minutes').fill('6');
    await two.getByText('was just changed in another window').waitFor();
    await expect.poll(() => two.getByLabel('Minutes').inputValue()).toBe('6');
  });

  test('full storage is told, nothing is lost, and saving goes on when there is room', async () => {
    // The browser looks at its quota when it opens a store, and for a while trusts what it saw: so before the desk is opened.
    const page = await open('/');
    const session = await page.context().newCDPSession(page);
    await session.send('Storage.overrideQuotaForOrigin', { origin: server.url, quotaSize: 1 });
    await page.goto(`${server.url}/desk/`);
    await newTree(page, 'No room');
    await page.getByLabel('Complaint', { exact: true }).fill('It hums, and nobody knows why.');
    await page.getByRole('alert').filter({ hasText: 'storage is full' }).waitFor();
    await expect.poll(() => page.getByLabel('Complaint', { exact: true }).inputValue()).toContain('It hums');
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Export now' }).click();
    expect((await download).suggestedFilename()).toBe('no-room.tree.mdx');
    await session.send('Storage.overrideQuotaForOrigin', { origin: server.url });
    await page.getByRole('button', { name: 'Try again' }).click();
    await saved(page);
    await page.reload();
    await expect.poll(() => page.getByLabel('Complaint', { exact: true }).inputValue()).toContain('It hums');
  });
});

test.each(['light', 'dark'] as const)('the editing page has nothing serious for axe in the %s theme', async (colorScheme) => {
  const page = await open('/desk/#/tree/condensate-or-float-switch-holds-off/edit', { ...LAPTOP, colorScheme });
  await page.locator('.slip').first().waitFor();
  await noProblems(page);
  expect(await seriousIn(page)).toEqual([]);
  await page.getByRole('button', { name: 'Tree and opening' }).click();
  expect(await seriousIn(page)).toEqual([]);
});
