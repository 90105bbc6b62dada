import { readFile } from 'node:fs/promises';
import type { CDPSession, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { readEditionFile } from '../../../shared/device/publication.ts';
import { DeskDriver, LAPTOP, seriousIn, storedText, typeOver, weigh } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const NAME = 'condensate-or-float-switch-holds-off';
const BENCH = 'condensate-safeties';
const FILE = `benches/${BENCH}.bench.yaml`;
const FAULT = 'drain-plugged';

/** A browser in which there is no room: it looks at its quota when it opens a store, and for a while trusts what it saw. So before the desk is opened. */
async function withoutRoom(hash: string): Promise<{ readonly page: Page; readonly makeRoom: () => Promise<void> }> {
  const context = await desk.browser.newContext(LAPTOP);
  const page = await context.newPage();
  desk.watch(page);
  await page.goto(desk.server.url);
  const session: CDPSession = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: desk.server.url, quotaSize: 1 });
  await page.goto(`${desk.server.url}/desk/${hash}`);
  return {
    page,
    makeRoom: async () => {
      await session.send('Storage.overrideQuotaForOrigin', { origin: desk.server.url });
    },
  };
}

/** Goes to a page of the desk without loading it anew: what could not be saved is only in this window. */
const at = (page: Page, hash: string): Promise<void> =>
  page.evaluate((to) => {
    location.hash = to;
  }, hash);

describe('with the storage full', () => {
  test('a changed bench is told as not saved, is exported, goes on being edited, and is saved once there is room', async () => {
    const { page, makeRoom } = await withoutRoom(`#/bench/${BENCH}`);
    await weigh(page, FAULT, '7');
    const alert = page.getByRole('alert').filter({ hasText: 'storage is full' });
    await alert.getByText(`${FILE} is not saved yet. Nothing is lost while this window is open`).waitFor();
    expect(await seriousIn(page)).toEqual([]);
    const download = page.waitForEvent('download');
    await alert.getByRole('button', { name: 'Export now' }).click();
    const text = await readFile(await (await download).path(), 'utf8');
    expect(text).toContain('weight: 7');
    await weigh(page, FAULT, '9');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await expect.poll(() => page.locator('.cm-content').textContent()).toContain('weight: 7');
    await makeRoom();
    await alert.getByRole('button', { name: 'Try again' }).click();
    await alert.waitFor({ state: 'detached' });
    await expect.poll(() => storedText(page, FILE)).toBe(text);
  });

  test('an edition is made all the same: it is downloaded whole, says why it is not stored, and is stored once there is room', async () => {
    const { page, makeRoom } = await withoutRoom(`#/bench/${BENCH}`);
    await weigh(page, FAULT, '7');
    await at(page, `#/tree/${NAME}/publish`);
    await page.getByRole('button', { name: 'Publish', exact: true }).waitFor();
    for (const reason of await page.getByLabel(/can stand$/).all()) await reason.fill('The crew knows of it.');
    await page.getByLabel('Who publishes it').fill('Marta Oakes');
    await page.getByLabel('Why', { exact: true }).fill('Heavier weight');
    const hash = (await page.locator('.publish-go code').textContent()) ?? '';
    await page.getByRole('button', { name: 'Publish', exact: true }).click();
    const alert = page.getByRole('alert').filter({ hasText: 'The edition is made and is not stored' });
    await alert.getByText("this browser's storage is full").waitFor();
    expect(await seriousIn(page)).toEqual([]);
    await alert.getByRole('button', { name: `Walk edition ${hash}` }).click();
    await alert.getByText('could not be put where the field app finds it').waitFor();
    const download = page.waitForEvent('download');
    await alert.getByRole('button', { name: `Download edition ${hash}` }).click();
    const file = readEditionFile(await readFile(await (await download).path(), 'utf8'));
    expect(file.ok && file.value.publication).toMatchObject({ by: 'Marta Oakes', why: 'Heavier weight' });
    expect(file.ok && file.value.hash.slice(0, 12)).toBe(hash);
    // What was typed is still there to be sent again.
    await makeRoom();
    await page.getByRole('button', { name: 'Publish', exact: true }).click();
    await page.getByRole('button', { name: `Read edition ${hash}` }).waitFor();
    await alert.waitFor({ state: 'detached' });
  });
});

describe('a reload in mid-edit', () => {
  test.each([
    ['a tree', `#/tree/${NAME}/edit`, `${NAME}.tree.mdx`, 'Text of the tree'],
    ['a bench', `#/bench/${BENCH}`, FILE, FILE],
  ] as const)('of the text of %s loses not one letter', async (_, hash, path, editor) => {
    const page = await desk.open(hash);
    await page.getByRole('textbox', { name: editor }).waitFor();
    await expect.poll(() => storedText(page, path)).toBeTruthy();
    const before = (await storedText(page, path)) ?? '';
    await page.getByRole('textbox', { name: editor }).click();
    await page.keyboard.press('Control+End');
    await page.keyboard.type('# half a wor');
    await page.reload();
    await page.getByRole('textbox', { name: editor }).waitFor();
    await expect.poll(() => storedText(page, path)).toBe(`${before}# half a wor`);
    await page.getByRole('textbox', { name: editor }).click();
    await page.keyboard.press('Control+End');
    await page.locator('.cm-line').getByText('# half a wor').waitFor();
  });
});

describe('two windows on one bench', () => {
  test('see each other and follow; undo of what the other has changed since is not taken', async () => {
    const page = await desk.open(`#/bench/${BENCH}`);
    await page.getByRole('textbox', { name: FILE }).waitFor();
    const other = await page.context().newPage();
    desk.watch(other);
    await other.goto(`${desk.server.url}/desk/#/bench/${BENCH}`);
    await page.getByText('is open in another window too').waitFor();
    await other.getByText('is open in another window too').waitFor();
    await weigh(page, FAULT, '7');
    await other.getByText('was just changed in another window').waitFor();
    const weightIn = async (window: Page): Promise<string> => {
      await window.getByRole('button', { name: `Edit fault ${FAULT}` }).click();
      const weight = await window.getByLabel(/^Weight/).inputValue();
      await window.getByRole('button', { name: 'Cancel' }).click();
      return weight;
    };
    await expect.poll(() => weightIn(other)).toBe('7');
    await weigh(other, FAULT, '9');
    await expect.poll(() => weightIn(page)).toBe('9');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await page.getByText('was left as it is').waitFor();
    await expect.poll(() => storedText(page, FILE)).toContain('weight: 9');
  });
});

test('a broken bench that is dropped in is kept, says what is wrong with it, and can be put right', async () => {
  const page = await desk.open('');
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  const broken = 'title: Dropped\nterminals: [R, C]\nparts:\n  load: { kind: load, between: [R, C], ohms: 600 volts }\n';
  const dataTransfer = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'dropped.bench.yaml'));
    return data;
  }, broken);
  await page.locator('.shelf').dispatchEvent('drop', { dataTransfer });
  await page.getByText('dropped.bench.yaml is on the shelf.').waitFor();
  await page.getByRole('link', { name: 'Dropped' }).click();
  await page.getByRole('button', { name: /^Error, line 4/ }).waitFor();
  await page.getByText('The circuit is drawn and solved once they are put right.').waitFor();
  await expect.poll(() => storedText(page, 'benches/dropped.bench.yaml')).toBe(broken);
  await typeOver(
    page,
    'benches/dropped.bench.yaml',
    `${broken.replace('600 volts', '600 ohm')}  supply: { kind: source, between: [R, C], volts: 24 V }\n`,
  );
  await expect.poll(async () => Number.parseFloat((await page.locator('.meter-reading').textContent()) ?? '')).toBeGreaterThan(20);
});
