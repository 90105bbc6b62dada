import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { blankTreeText } from '../../../author-ui/edit/blank-tree.ts';
import { SHIPPED_TREES } from '../../../shared/crew/serve.ts';
import { DeskDriver, LAPTOP, seriousIn } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const NAME = 'crew-trees';
const TREE = 'no-call.tree.mdx';

/**
 * A desk whose folder picker hands over a directory of the origin private file system: a real FileSystemDirectoryHandle, of which Chromium asks
 * no permission. The permission is the test's: `ask` in local storage has it asked for again.
 */
async function openDesk(): Promise<Page> {
  const context = await desk.browser.newContext(LAPTOP);
  await context.addInitScript((name) => {
    const picker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle(name, { create: true });
    Object.assign(window, { showDirectoryPicker: picker });
    const prototype = FileSystemHandle.prototype as unknown as Record<string, () => Promise<string>>;
    prototype.queryPermission = async () => (localStorage.getItem('ask') === null ? 'granted' : 'prompt');
    prototype.requestPermission = async () => {
      localStorage.removeItem('ask');
      return 'granted';
    };
  }, NAME);
  const page = await context.newPage();
  desk.watch(page);
  await page.goto(`${desk.server.url}/desk/`);
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  return page;
}

/** What another program does to the folder. */
const putFile = (page: Page, path: string, text: string): Promise<void> =>
  page.evaluate(
    async ([name = '', at = '', content = '']) => {
      let directory = await (await navigator.storage.getDirectory()).getDirectoryHandle(name, { create: true });
      const parts = at.split('/');
      for (const part of parts.slice(0, -1)) directory = await directory.getDirectoryHandle(part, { create: true });
      const file = await directory.getFileHandle(parts.at(-1) ?? '', { create: true });
      const stream = await file.createWritable();
      await stream.write(content);
      await stream.close();
    },
    [NAME, path, text],
  );

const takeFile = (page: Page, path: string): Promise<void> =>
  page.evaluate(
    async ([name = '', at = '']) => {
      const directory = await (await navigator.storage.getDirectory()).getDirectoryHandle(name);
      await directory.removeEntry(at);
    },
    [NAME, path],
  );

/** The file as another program reads it; undefined where there is none. */
const fileText = (page: Page, path: string): Promise<string | undefined> =>
  page.evaluate(
    async ([name = '', at = '']) => {
      try {
        let directory = await (await navigator.storage.getDirectory()).getDirectoryHandle(name);
        const parts = at.split('/');
        for (const part of parts.slice(0, -1)) directory = await directory.getDirectoryHandle(part);
        return await (await (await directory.getFileHandle(parts.at(-1) ?? '')).getFile()).text();
      } catch {
        return undefined;
      }
    },
    [NAME, path],
  );

const written = (page: Page): Promise<void> => page.locator('.folder-mark').getByText('all written').waitFor();
const look = (page: Page): Promise<void> => page.evaluate(() => void document.dispatchEvent(new Event('visibilitychange')));

async function openFolder(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Open a folder' }).click();
  await written(page);
  await page.getByText('These are the files of the folder').waitFor();
}

async function shelfOf(files: Readonly<Record<string, string>>): Promise<Page> {
  const page = await openDesk();
  for (const [path, text] of Object.entries(files)) await putFile(page, path, text);
  await openFolder(page);
  return page;
}

const toEdit = async (page: Page, name = 'no-call'): Promise<void> => {
  await page.goto(`${desk.server.url}/desk/#/tree/${name}/edit/opening`);
  await page.getByRole('form', { name: 'The tree itself' }).waitFor();
};
const complaint = (page: Page) => page.getByLabel('Complaint', { exact: true });
const blank = blankTreeText('no-call', 'No call');

describe('a folder of files', () => {
  test('is read whole, every change goes into its own file, and closing it comes back to the files of the browser', async () => {
    const bench = await readFile(join(SHIPPED_TREES, 'benches', 'own-transformer.bench.yaml'), 'utf8');
    const picture = 'figures/valve.svg';
    const page = await shelfOf({
      [TREE]: blank,
      'benches/own-transformer.bench.yaml': bench,
      [picture]: '<svg xmlns="http://www.w3.org/2000/svg"/>',
      'My notes.tree.mdx': 'not for the desk',
      'readme.txt': 'nor this',
    });
    await expect.poll(() => page.locator('.shelf > .shelf-table tbody tr').count()).toBe(1);
    await expect.poll(() => page.locator('.shelf-benches tbody tr').count()).toBe(1);
    await page.getByText('My notes.tree.mdx').waitFor();
    expect(await seriousIn(page)).toEqual([]);
    await toEdit(page);
    await complaint(page).fill('Nobody hears the bell.');
    await written(page);
    await expect.poll(() => fileText(page, TREE)).toBe(blank.replace(/^complaint: .*$/m, 'complaint: Nobody hears the bell.'));
    await expect.poll(() => fileText(page, 'My notes.tree.mdx')).toBe('not for the desk');
    // A new file, a removed one, and undo of both are in the folder too.
    await page.goto(`${desk.server.url}/desk/#/`);
    await page.getByLabel('More for No call').click();
    await page.getByRole('button', { name: 'Duplicate' }).click();
    await expect.poll(() => fileText(page, 'no-call-copy.tree.mdx')).toContain('title: No call, copy');
    await page.getByLabel('More for No call', { exact: true }).click();
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    await expect.poll(() => fileText(page, TREE)).toBeUndefined();
    await page.getByRole('button', { name: /^Undo: Remove/ }).click();
    await expect.poll(() => fileText(page, TREE)).toContain('Nobody hears the bell.');
    await written(page);
    await page.getByRole('button', { name: 'Close the folder' }).click();
    await page.getByRole('link', { name: 'Edit: No water at the pad' }).waitFor();
    await expect.poll(() => page.locator('.folder-mark').count()).toBe(0);
    await expect.poll(() => page.getByRole('link', { name: 'Edit: No call' }).count()).toBe(0);
  });

  test('of a checkout is its folder trees; what is typed is there after a reload, the handle too', async () => {
    const page = await shelfOf({ [`trees/${TREE}`]: blank, 'package.json': '{}' });
    await toEdit(page);
    await complaint(page).fill('Typed and at once reloaded.');
    await page.reload();
    await page.getByRole('form', { name: 'The tree itself' }).waitFor();
    await expect.poll(() => complaint(page).inputValue()).toBe('Typed and at once reloaded.');
    await written(page);
    await expect.poll(() => fileText(page, `trees/${TREE}`)).toContain('Typed and at once reloaded.');
  });

  test('that the browser asks leave for again is worked on from what is kept here, and gets everything once allowed', async () => {
    const page = await shelfOf({ [TREE]: blank });
    await page.evaluate(() => localStorage.setItem('ask', 'yes'));
    await page.reload();
    await page.getByRole('alert').getByText('The browser wants your leave again').waitFor();
    expect(await seriousIn(page)).toEqual([]);
    await toEdit(page);
    await complaint(page).fill('Written without leave.');
    await page.getByRole('alert').getByText('1 file changed here is kept in this browser and not in the folder yet.').waitFor();
    await expect.poll(() => fileText(page, TREE)).toBe(blank);
    await page.getByRole('button', { name: 'Allow the folder' }).click();
    await written(page);
    await expect.poll(() => fileText(page, TREE)).toContain('Written without leave.');
  });

  test('that is closed before it could be written keeps the change for when it is opened again', async () => {
    const page = await shelfOf({ [TREE]: blank });
    await page.evaluate(() => localStorage.setItem('ask', 'yes'));
    await page.reload();
    await toEdit(page);
    await complaint(page).fill('For later.');
    await page.getByRole('alert').getByText('1 file changed here').waitFor();
    await page.getByRole('button', { name: 'Close the folder' }).click();
    await page.goto(`${desk.server.url}/desk/#/`);
    await page.getByRole('link', { name: 'Edit: No water at the pad' }).waitFor();
    await page.evaluate(() => localStorage.removeItem('ask'));
    await openFolder(page);
    await expect.poll(() => fileText(page, TREE)).toContain('For later.');
  });

  test('is not offered where the browser cannot', async () => {
    const context = await desk.browser.newContext(LAPTOP);
    await context.addInitScript(() => Object.assign(window, { showDirectoryPicker: undefined }));
    const page = await context.newPage();
    desk.watch(page);
    await page.goto(`${desk.server.url}/desk/`);
    await page.getByRole('button', { name: 'Import files' }).waitFor();
    await expect.poll(() => page.getByRole('button', { name: 'Open a folder' }).count()).toBe(0);
  });
});

describe('a file that another program changes', () => {
  test('shows its new text where it was not touched here', async () => {
    const page = await shelfOf({ [TREE]: blank });
    await putFile(page, TREE, blank.replace('title: No call', 'title: No call at all'));
    await look(page);
    await page.getByRole('link', { name: 'Edit: No call at all' }).waitFor();
    await takeFile(page, TREE);
    await look(page);
    await page.getByRole('heading', { name: 'The shelf is empty' }).waitFor();
  });

  test.each([
    ['Keep yours', 'Mine.', undefined],
    ["Keep the folder's", 'Theirs.', undefined],
    ['Keep both, yours as a copy', 'Theirs.', 'Mine.'],
  ] as const)('while it is changed here is shown twice, and “%s” does that; the other text is one undo away', async (button, kept, copy) => {
    const page = await shelfOf({ [TREE]: blank });
    await toEdit(page);
    await page.evaluate(() => localStorage.setItem('ask', 'yes'));
    await complaint(page).fill('Mine.');
    await page.getByRole('alert').getByText('1 file changed here').waitFor();
    await putFile(page, TREE, blank.replace(/^complaint: .*$/m, 'complaint: Theirs.'));
    await page.getByRole('button', { name: 'Allow the folder' }).click();
    const conflict = page.getByRole('alert', { name: 'Files changed twice' });
    await conflict.getByRole('heading', { name: `${TREE} was changed by another program, and changed here too` }).waitFor();
    await expect
      .poll(() => conflict.locator('.folder-line-changed').allTextContents())
      .toEqual([expect.stringContaining('complaint: Mine.'), expect.stringContaining('complaint: Theirs.')]);
    await expect.poll(() => fileText(page, TREE)).toContain('complaint: Theirs.');
    expect(await seriousIn(page)).toEqual([]);
    await conflict.getByRole('button', { name: button }).click();
    await conflict.waitFor({ state: 'detached' });
    await written(page);
    await expect.poll(() => fileText(page, TREE)).toContain(`complaint: ${kept}`);
    await expect.poll(() => complaint(page).inputValue()).toBe(kept);
    const other = () => fileText(page, 'no-call-copy.tree.mdx');
    if (copy === undefined) expect(await other()).toBeUndefined();
    else await expect.poll(other).toContain(`complaint: ${copy}`);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await expect.poll(() => complaint(page).inputValue()).toBe(kept === 'Mine.' ? 'Theirs.' : 'Mine.');
    await written(page);
    await expect.poll(() => fileText(page, TREE)).toContain(`complaint: ${kept === 'Mine.' ? 'Theirs.' : 'Mine.'}`);
  });
});

test('two windows in one folder write one after the other, and neither takes the other for another program', async () => {
  const page = await shelfOf({ [TREE]: blank });
  const other = await page.context().newPage();
  desk.watch(other);
  await toEdit(other);
  await toEdit(page);
  for (let turn = 1; turn <= 4; turn += 1) {
    const [here, there] = turn % 2 === 0 ? [page, other] : [other, page];
    await complaint(here).fill(`Turn ${turn}.`);
    await expect.poll(() => complaint(there).inputValue()).toBe(`Turn ${turn}.`);
  }
  await expect.poll(() => fileText(page, TREE)).toContain('Turn 4.');
  await written(page);
  await written(other);
  await expect.poll(() => page.locator('.folder-conflict').count()).toBe(0);
  await expect.poll(() => other.locator('.folder-conflict').count()).toBe(0);
});
