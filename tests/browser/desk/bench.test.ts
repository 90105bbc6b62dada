import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { DeskDriver, LAPTOP, seriousIn, storedText, typeOver } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const OWN = '#/bench/own-transformer';
const FILE = 'benches/own-transformer.bench.yaml';
const reading = '.meter-reading';
/** The bench's file once the editor is there; it is stored as soon as the service has given it. */
async function fileOf(page: Page): Promise<string> {
  await page.getByRole('textbox', { name: FILE }).waitFor();
  await expect.poll(() => storedText(page, FILE)).toBeTruthy();
  return (await storedText(page, FILE)) ?? '';
}

test('two points pressed on the drawing are read at once, and a fault shows beside what the sound circuit would read', async () => {
  const page = await desk.open(OWN);
  await page.locator(reading).waitFor();
  await page.getByRole('button', { name: 'terminal V1' }).click();
  await page.getByRole('button', { name: 'terminal V2' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(async () => Number.parseFloat((await page.locator(reading).textContent()) ?? '')).toBeGreaterThan(20);
  const sound = await page.locator(reading).textContent();
  await page.getByRole('checkbox', { name: /^feed-missing / }).check();
  await expect.poll(async () => Number.parseFloat((await page.locator(reading).textContent()) ?? '')).toBeLessThan(20);
  await expect.poll(() => page.locator('.meter-sound').textContent()).toContain(sound);
  await expect.poll(() => page.locator('.bench-signs').textContent()).toContain('valve-clicks: no, sound circuit: yes');
  expect(await seriousIn(page)).toEqual([]);
});

test('ohms on a live circuit are refused in words; with the power off they are read', async () => {
  const page = await desk.open(OWN);
  await page.locator(reading).waitFor();
  await page.locator('.meter').getByLabel('Dial').selectOption('resistance');
  await expect.poll(() => page.locator(reading).textContent()).toMatch(/cannot be read here: the circuit is live/);
  await page.getByRole('group', { name: 'main-power' }).getByRole('radio', { name: 'off' }).check();
  await expect.poll(() => page.locator(reading).textContent()).toMatch(/Ω|OL/);
  await page.getByRole('button', { name: 'As found' }).click();
  await expect.poll(() => page.locator(reading).textContent()).toMatch(/is live/);
});

test('a part and a fault are added, changed and removed by forms; other lines stay, undo goes back, and a reload keeps it', async () => {
  const page = await desk.open(OWN);
  const before = await fileOf(page);
  await page.getByRole('button', { name: 'Edit part control', exact: true }).click();
  const form = page.getByRole('form', { name: 'Part control' });
  await form.getByLabel('Resistance, or VA and rated volts').fill('500 ohm');
  await form.getByRole('button', { name: 'Save' }).click();
  await expect.poll(() => storedText(page, FILE)).toBe(before.replace('between: [R, C], ohms: 600 ohm', 'between: [R, C], ohms: 500 ohm'));
  await page.getByRole('button', { name: 'Add a fault' }).click();
  const fault = page.getByRole('form', { name: 'New fault' });
  await fault.getByRole('button', { name: 'Save' }).click();
  await expect.poll(() => fault.getByRole('alert').textContent()).toContain('“Becomes” is empty');
  await fault.getByLabel('Name in the file').fill('control-shorted');
  await fault.getByLabel('Part', { exact: true }).selectOption('control');
  await fault.getByLabel('Becomes').selectOption({ label: 'shorted: as good as a wire' });
  await fault.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: 'Edit fault control-shorted' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Remove fault control-shorted' }).click();
  await expect.poll(() => storedText(page, FILE)).not.toContain('control-shorted');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => storedText(page, FILE)).toContain('control-shorted');
});

test('of two removals pressed at once neither comes back, and what is typed in a form stays while the text is broken', async () => {
  const page = await desk.open(OWN);
  const before = await fileOf(page);
  await page.getByRole('button', { name: 'Remove fault coil-open' }).waitFor();
  // Both presses come before the page is drawn anew.
  await page.evaluate(() => {
    for (const fault of ['coil-open', 'coil-shorted']) document.querySelector<HTMLElement>(`[aria-label="Remove fault ${fault}"]`)?.click();
  });
  const without = before.replace(/^ {2}coil-(open|shorted): \{ part: .*\n/gm, '');
  expect(without).not.toBe(before);
  await expect.poll(() => storedText(page, FILE)).toBe(without);

  await page.getByRole('button', { name: 'Edit part control', exact: true }).click();
  const form = page.getByRole('form', { name: 'Part control' });
  await form.getByLabel('Resistance, or VA and rated volts').fill('500 ohm');
  await typeOver(page, FILE, `${without}signs: [`);
  await page.getByText('The text cannot be read as a bench now').waitFor();
  await form.getByRole('button', { name: 'Save' }).click();
  await form.getByRole('alert').getByText('what was typed in a form stays').waitFor();
  await typeOver(page, FILE, without.replace('title: ', 'title: Now '));
  await page.getByRole('heading', { level: 1, name: /^Now / }).waitFor();
  await form.getByRole('button', { name: 'Save' }).click();
  await expect.poll(() => storedText(page, FILE)).toBe(without.replace('title: ', 'title: Now ').replace('ohms: 600 ohm', 'ohms: 500 ohm'));
});

test('a mistake in the text is told with its line as it is typed, and the last sound circuit stays', async () => {
  const page = await desk.open(OWN);
  const text = await fileOf(page);
  await page.locator(reading).waitFor();
  await typeOver(page, FILE, text.replace('volts: line-volts', 'volts: line-voltz'));
  const line = text.split('\n').findIndex((one) => one.includes('volts: line-volts,')) + 1;
  await page.getByRole('button', { name: new RegExp(`line ${line}$`) }).waitFor();
  await expect.poll(() => page.getByText('The circuit below is the last one that could be solved.').isVisible()).toBe(true);
  await expect.poll(() => page.locator(reading).isVisible()).toBe(true);
  // A press on the problem goes to its place, where it is underlined; its part says so too.
  await page.getByRole('button', { name: new RegExp(`line ${line}$`) }).click();
  await page.locator('.cm-lintRange').getByText('line-voltz').waitFor();
  await page.locator('tr', { hasText: 'mains' }).locator('.entry-problems').getByText('Error').waitFor();
  expect(await seriousIn(page)).toEqual([]);
  await page.keyboard.press('Control+z');
  await expect.poll(() => storedText(page, FILE)).toBe(text);
});

test('the text and the forms go together: an open form brings its lines into view, the cursor marks its entry', async () => {
  const page = await desk.open(OWN);
  const text = await fileOf(page);
  await page.getByRole('button', { name: 'Edit fault coil-open' }).click();
  await page.locator('.cm-shown-step').getByText('coil-open').waitFor();
  await page.getByText('becomes: ', { exact: false }).locator('visible=true').first().waitFor();
  await page.locator('.cm-line', { hasText: 'coil-shorted:' }).click();
  await page.locator('tr[data-shown]').getByText('coil-shorted').waitFor();
  await page.keyboard.press('Control+End');
  // At once: letters with a pause between them are taken back one after the other.
  await page.keyboard.insertText('# seen');
  await expect.poll(() => storedText(page, FILE)).toBe(`${text}# seen`);
  await page.keyboard.press('Control+z');
  await expect.poll(() => storedText(page, FILE)).toBe(text);
});

test('a renamed entry is followed by formulas, faults, the tree and its other benches, as one step; a bad name is refused', async () => {
  const page = await desk.open(OWN);
  const before = await fileOf(page);
  await page.getByRole('button', { name: 'Edit setting heat-call' }).click();
  const form = page.getByRole('form', { name: 'Setting heat-call' });
  await form.getByLabel('Name in the file').fill('main-power');
  await form.getByRole('button', { name: 'Save' }).click();
  await form.getByText('There is a “main-power” already.').waitFor();
  await form.getByLabel('Name in the file').fill('valve-coil');
  await form.getByRole('button', { name: 'Save' }).click();
  await form.getByText('With that name the bench own-transformer would be wrong').waitFor();
  await form.getByLabel('Name in the file').fill('burner');
  await form.getByText('Every mention follows').waitFor();
  await form.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: 'Edit setting burner' }).waitFor();
  await expect.poll(() => storedText(page, FILE)).toBe(before.replaceAll('heat-call', 'burner'));
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('while="burner on, humidity-call on"');
  await expect.poll(() => storedText(page, 'benches/contact-fed-from-equipment-r.bench.yaml')).toContain('burner');
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => storedText(page, FILE)).toBe(before);
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('while="heat-call on, humidity-call on"');
  // A terminal: the drawing and the meter have the new name.
  await page.getByRole('button', { name: 'Rename a terminal' }).click();
  const terminal = page.getByRole('form', { name: 'Rename a terminal' });
  await terminal.getByLabel('Terminal').selectOption('K1');
  await terminal.getByLabel('Is called').fill('X1');
  await terminal.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: 'terminal X1' }).waitFor();
  await expect.poll(() => storedText(page, FILE)).toContain('feed: { kind: wire, between: [R, X1], gauge');
  await expect.poll(() => storedText(page, FILE)).toContain('dry-contact: { kind: contact, between: [X1, K2]');
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('jumper X1 to K2');
});

test('a new bench is made from the shelf and can be tried at once', async () => {
  const page = await desk.open('');
  await page.getByRole('button', { name: 'New bench' }).click();
  await page.getByLabel('Title of the new bench').fill('Zone valve by its thermostat');
  await page.getByRole('button', { name: 'Make it' }).click();
  await page.getByRole('heading', { level: 1, name: 'Zone valve by its thermostat' }).waitFor();
  await expect.poll(async () => Number.parseFloat((await page.locator(reading).textContent()) ?? '')).toBeGreaterThan(24);
});

test('the file of a bench and of a tree is renamed from the shelf, what names it follows, and undo takes both back', async () => {
  const page = await desk.open('');
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  const rename = async (title: string, to: string): Promise<void> => {
    await page.getByLabel(`More for ${title}`, { exact: true }).click();
    await page.getByRole('button', { name: 'Rename the file', exact: true }).click();
    const form = page.getByRole('form', { name: `Rename the file of ${title}` });
    await form.getByLabel('Name of the file').fill(to);
    await form.getByRole('button', { name: 'Rename' }).click();
  };
  const title = 'Humidifier on its own transformer, live only with a proved burner';
  await rename(title, 'cooling-call');
  await page.getByRole('alert').getByText('There is a file benches/cooling-call.bench.yaml already.').waitFor();
  expect(await seriousIn(page)).toEqual([]);
  await page.getByLabel('Name of the file').fill('Tannery Lane');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: `Undo: Rename the file of “${title}”` }).waitFor();
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('benches: [tannery-lane, contact-fed');
  await expect.poll(() => storedText(page, FILE)).toBeUndefined();
  await expect.poll(() => page.getByRole('link', { name: title }).getAttribute('href')).toContain('tannery-lane');
  await page.getByRole('link', { name: title }).click();
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
  await expect.poll(() => page.url()).toContain('#/bench/tannery-lane');
  await page.getByRole('link', { name: 'No water at the pad' }).waitFor();
  await page.getByRole('link', { name: 'Shelf' }).click();
  await page.getByRole('button', { name: `Undo: Rename the file of “${title}”` }).click();
  await expect.poll(() => storedText(page, FILE)).toContain('title: Humidifier on its own');
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('benches: [own-transformer, contact-fed');
  await rename('No heat: call to proved flame', 'call-to-flame');
  await expect.poll(() => storedText(page, 'no-water-at-the-pad.tree.mdx')).toContain('(call-to-flame.tree.mdx)');
});

test.each(['light', 'dark'] as const)('a bench with an open form has nothing serious for axe in the %s theme', async (colorScheme) => {
  const page = await desk.open('#/bench/ignition-sequence', { ...LAPTOP, colorScheme });
  await page.locator(reading).waitFor();
  await page.getByRole('button', { name: 'Add a part' }).click();
  await page.getByRole('form', { name: 'New part' }).getByLabel('Kind').selectOption('sequence');
  expect(await seriousIn(page)).toEqual([]);
});
