import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { FieldDriver } from '../field/field-driver.ts';
import { DeskDriver, LAPTOP, seriousIn, storedText } from './desk-driver.ts';

let desk: DeskDriver;
beforeAll(async () => {
  desk = await DeskDriver.start();
});
afterEach(() => desk.endTest());
afterAll(() => desk.stop());

const BENCH = 'benches/zone-valve-by-its-thermostat.bench.yaml';
const TREE = 'zone-valve-stays-shut.tree.mdx';
const NAME = 'zone-valve-stays-shut';

/** Goes to a page of the desk without loading it anew, so that what can be undone stays. */
const at = (page: Page, hash: string): Promise<void> =>
  page.evaluate((to) => {
    location.hash = to;
  }, hash);

/** Opens the form of a new entry of a bench, fills it in by the labels of its fields, and saves it. */
async function addEntry(page: Page, one: string, name: string, fields: Readonly<Record<string, string>>, kind?: string): Promise<void> {
  await page.getByRole('button', { name: `Add a ${one}` }).click();
  const form = page.getByRole('form', { name: `New ${one}` });
  if (kind !== undefined) await form.getByLabel('Kind').selectOption(kind);
  await form.getByLabel('Name in the file').fill(name);
  await fillIn(page, `New ${one}`, fields);
  await form.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: `Edit ${one} ${name}`, exact: true }).waitFor();
}

async function changeEntry(page: Page, one: string, name: string, fields: Readonly<Record<string, string>>): Promise<void> {
  await page.getByRole('button', { name: `Edit ${one} ${name}`, exact: true }).click();
  const title = `${one[0]?.toUpperCase()}${one.slice(1)} ${name}`;
  await fillIn(page, title, fields);
  await page.getByRole('form', { name: title }).getByRole('button', { name: 'Save' }).click();
  await page.getByRole('form', { name: title }).waitFor({ state: 'detached' });
  for (const value of Object.values(fields))
    await expect.poll(() => storedText(page, BENCH)).toMatch(new RegExp(`^ +${name}: .*\\b${value}\\b`, 'm'));
}

async function fillIn(page: Page, title: string, fields: Readonly<Record<string, string>>): Promise<void> {
  const form = page.getByRole('form', { name: title });
  for (const [label, value] of Object.entries(fields)) {
    if (label === 'Between') {
      const [from = '', to = ''] = value.split(', ');
      await form.getByRole('group', { name: label }).getByLabel('from').fill(from);
      await form.getByRole('group', { name: label }).getByLabel('to').fill(to);
      continue;
    }
    const field = form.getByLabel(label, { exact: false }).first();
    if ((await field.evaluate((element) => element.tagName)) === 'SELECT') await field.selectOption({ label: value });
    else await field.fill(value);
  }
}

/** A thermostat that switches a zone valve on a 24 V transformer: from the blank bench, by forms. */
async function makeBench(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'New bench' }).click();
  await page.getByLabel('Title of the new bench').fill('Zone valve by its thermostat');
  await page.getByRole('button', { name: 'Make it' }).click();
  await page.getByRole('heading', { level: 1, name: 'Zone valve by its thermostat' }).waitFor();
  await page.getByRole('button', { name: 'Change title and terminals' }).click();
  await fillIn(page, 'Title and terminals', { 'Points that a lead can touch': 'L1, N, R, C, W, V1' });
  await page.getByRole('form', { name: 'Title and terminals' }).getByRole('button', { name: 'Save' }).click();
  await addEntry(page, 'setting', 'heat-call', { States: 'on, off' });
  await addEntry(page, 'fact', 'line-volts', {
    Kind: 'ac-voltage',
    'Asked as': 'Line voltage at the unit',
    Usually: '120 V',
    From: '108 V',
    To: '126 V',
  });
  await changeEntry(page, 'part', 'mains', { Volts: 'line-volts' });
  await addEntry(page, 'part', 'thermostat', { Between: 'R, W', 'Closed when': 'heat-call is on' }, 'contact');
  await addEntry(page, 'part', 'run', { Between: 'W, V1', Gauge: '18 AWG', 'Length one way': '40 ft' }, 'wire');
  await addEntry(
    page,
    'part',
    'valve-coil',
    {
      Between: 'V1, C',
      'Rated volts': '24 V',
      'VA held in': '10 VA',
      'Winding resistance': '30 ohm',
      'Pulls in at': '85 %',
      'Leads that can be lifted': 'coil-hot on V1',
    },
    'coil',
  );
  await addEntry(page, 'sign', 'valve-opens', { 'Can be seen or heard while': 'valve-coil is pulled-in' });
  await addEntry(page, 'fault', 'coil-open', {
    Part: 'valve-coil',
    Becomes: 'open: broken, no current',
    Weight: '3',
    'In plain words': "The valve's coil is open.",
  });
  await addEntry(page, 'fault', 'run-corroded', {
    Part: 'run',
    Becomes: 'drifted: a value of its own…',
    Value: '80 ohm',
    Weight: '2',
    'In plain words': 'A splice in the wire to the valve is corroded.',
  });
  await page.getByRole('button', { name: 'Remove fault secondary-open' }).click();
  await page.getByText('No problems.', { exact: true }).waitFor();
}

const problems = (page: Page) => page.getByRole('region', { name: 'Problems' });
const noProblems = (page: Page): Promise<void> =>
  expect.poll(async () => [await problems(page).textContent(), await problems(page).locator('[data-checking]').count()]).toEqual(['No problems', 0]);

async function goToStep(page: Page, title: string): Promise<void> {
  const search = page.getByRole('combobox', { name: 'Find a step' });
  await search.fill(title);
  await search.press('Enter');
  await page.getByRole('form', { name: `Step: ${title}` }).waitFor();
}

/** Leads a way to a new step of this kind, and calls it something. */
async function leadToNew(page: Page, way: string, kind: string, title: string): Promise<void> {
  await page.getByRole('combobox', { name: `Where ${way} leads`, exact: true }).selectOption({ label: `New ${kind}` });
  await page.getByRole('form', { name: /^Step: New / }).waitFor();
  await page.getByRole('textbox', { name: 'Title', exact: true }).fill(title);
  await page.getByRole('form', { name: `Step: ${title}` }).waitFor();
}

/** Eight steps: a look, an ask, an act, a reading with four bands, three findings and a handoff. From the blank tree, by forms. */
async function makeTree(page: Page): Promise<string> {
  await at(page, '#/');
  await page.getByRole('button', { name: 'New tree', exact: true }).click();
  await page.getByLabel('What the crew calls it').fill('Zone valve stays shut');
  await page.getByRole('button', { name: 'Create' }).click();
  await page.getByRole('form', { name: 'The tree itself' }).waitFor();
  await expect.poll(() => storedText(page, TREE)).toBeTruthy();
  const blank = (await storedText(page, TREE)) ?? '';
  await page.getByLabel('Complaint', { exact: true }).fill('The thermostat calls and the zone stays cold.');
  await page.getByRole('checkbox', { name: 'zone-valve-by-its-thermostat' }).check();

  await goToStep(page, 'Try the complaint');
  await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Valve on a call');
  await page.getByLabel('Look at').fill('the zone valve');
  await page.getByLabel('Sign of the bench').selectOption('valve-opens');
  await page.getByRole('button', { name: 'A setting must hold' }).click();
  await page.getByLabel('Setting that must hold').selectOption('heat-call');
  await page.getByLabel('State of heat-call').selectOption('on');
  await page.getByLabel('Way 1').fill('opens');
  await page.getByLabel('Way 2').fill('stays shut');

  await leadToNew(page, 'stays shut', 'ask', 'Line voltage');
  await page.getByLabel('Fact to ask for').selectOption('line-volts');
  await page.getByRole('button', { name: 'Add a band' }).click();
  await leadToNew(page, 'known', 'act', 'Bridge the thermostat');
  await page.getByLabel('Action 1').selectOption({ label: 'Jumper two points' });
  await page.getByLabel('From', { exact: true }).fill('R');
  await page.getByLabel('To', { exact: true }).fill('W');
  await page.getByRole('button', { name: 'Add a way on' }).click();
  await leadToNew(page, 'done', 'reading', 'Volts at the valve');
  await page.getByLabel('Red lead on').fill('V1');
  await page.getByLabel('Black lead on').fill('C');
  const addBand = page.getByRole('button', { name: 'Add a band' });
  await addBand.click();
  await page.getByLabel('Kind of band, way 1').selectOption({ label: 'below' });
  await page.getByLabel('Below, way 1').fill('2 V');
  for (const [way, from, to] of [
    [2, '2 V', '20 V'],
    [3, '20 V', '30 V'],
  ] as const) {
    await addBand.click();
    await page.getByLabel(`Kind of band, way ${way}`).selectOption({ label: 'from … to' });
    // It begins where the band before ends.
    await expect.poll(() => page.getByLabel(`From, way ${way}`).inputValue()).toBe(from);
    await page.getByLabel(`To, way ${way}`).fill(to);
  }
  await addBand.click();
  await page.getByRole('button', { name: 'Add a caution' }).click();
  await page.getByLabel('Signal word').selectOption({ label: 'Notice' });
  await leadToNew(page, '2 V to 20 V', 'finding', 'Splice corroded');
  await page.getByRole('checkbox', { name: 'run-corroded' }).check();
  await page.getByLabel('Repair', { exact: true }).fill('Power off. Make the splice anew, and put its cover back.');
  await goToStep(page, 'Volts at the valve');
  await leadToNew(page, '20 V to 30 V', 'finding', 'Coil open');
  await page.getByRole('checkbox', { name: 'coil-open' }).check();
  await page.getByLabel('Repair', { exact: true }).fill('Power off. Replace the head of the valve with one of the **same voltage**.');
  await noProblems(page);
  return blank;
}

test('a bench and an eight-step tree are made from blank by forms, proved clean, published and walked; edited as text; undone to blank', async () => {
  const page = await desk.open('', { ...LAPTOP, hasTouch: true });
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  await makeBench(page);
  const blank = await makeTree(page);
  // What was typed last is on the disk: with it everything is.
  await expect.poll(() => storedText(page, TREE)).toContain('Replace the head of the valve with one of the **same voltage**.');
  await page.getByText('Saved in this browser').waitFor();
  const made = (await storedText(page, TREE)) ?? '';
  expect([...made.matchAll(/^## /gm)]).toHaveLength(8);

  await at(page, `#/tree/${NAME}/proof`);
  await page.getByRole('heading', { name: 'Faults against findings' }).waitFor();
  await expect.poll(() => page.locator('.proof-findings').allTextContents()).toEqual([]);
  await expect.poll(() => page.locator('.proof-verdict').textContent()).toContain('2 faults');
  expect(await seriousIn(page)).toEqual([]);

  await at(page, `#/tree/${NAME}/publish`);
  await page.getByRole('button', { name: 'Publish', exact: true }).waitFor();
  await expect.poll(() => page.getByLabel(/can stand$/).count()).toBe(0);
  await page.getByLabel('Who publishes it').fill('Marta Oakes');
  await page.getByLabel('Why', { exact: true }).fill('The first tree for zone valves.');
  await page.getByRole('button', { name: 'Publish', exact: true }).click();
  await page.getByRole('button', { name: /^Read edition / }).waitFor();

  const field = await page.context().newPage();
  desk.watch(field);
  await field.goto(`${desk.server.url}/desk/#/tree/${NAME}/publish`);
  await field.getByRole('button', { name: /^Walk edition / }).click();
  await field.getByRole('button', { name: 'Open the call' }).click();
  await field.locator('.walk').waitFor();
  const tech = new FieldDriver(field, desk.server.url);
  await tech.start();
  await tech.walkTo('Coil open', { 'Valve on a call': 'stays shut', 'Line voltage': '120', 'Volts at the valve': '26.4' });
  expect(tech.passed).toEqual(['Valve on a call', 'Line voltage', 'Bridge the thermostat', 'Volts at the valve']);
  await tech.closeFixed('opens');
  await expect.poll(() => field.locator('.report').textContent()).toContain('Coil open');
  await field.close();

  // As text: a word is typed over, and the form has it.
  await at(page, `#/tree/${NAME}/edit/volts-at-the-valve`);
  await page.getByRole('form', { name: 'Step: Volts at the valve' }).waitFor();
  const text = page.getByRole('textbox', { name: 'Text of the tree' });
  await text.getByText('20 V to 30 V').first().click();
  await page.keyboard.press('Home');
  for (let letter = 0; letter < '- 20 V to 3'.length; letter += 1) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Delete');
  await page.keyboard.type('2');
  await expect.poll(() => page.getByLabel('To, way 3').inputValue()).toBe('32 V');
  await noProblems(page);
  await expect.poll(() => storedText(page, TREE)).toBe(made.replace('- 20 V to 30 V:', '- 20 V to 32 V:'));

  // Back, one step at a time: over the text, the tree's forms, the tree itself, and the bench's forms.
  const undo = page.getByRole('button', { name: 'Undo', exact: true });
  const undone: string[] = [];
  const next = async (): Promise<string> => (await undo.getAttribute('title')) ?? '';
  for (let label = await next(); !label.includes('New tree') && undone.length < 200; label = await next()) {
    undone.push(label);
    await undo.click();
  }
  await expect.poll(() => storedText(page, TREE)).toBe(blank);
  expect(undone[0]).toContain('Edit the text');
  await at(page, '#/');
  const back = page.getByRole('button', { name: /^Undo: / });
  await back.waitFor();
  for (let step = 0; step < 60 && (await back.count()) > 0; step += 1) await back.click();
  await expect.poll(() => storedText(page, TREE)).toBeUndefined();
  await expect.poll(() => storedText(page, BENCH)).toBeUndefined();
}, 900_000);
