import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import type { Role } from '../../../shared/sync/wire/role.ts';
import { taskOn } from '../../drill/drill-grounds.ts';
import { openBrowser } from '../browser.ts';
import { LAPTOP, seriousIn } from '../desk/desk-driver.ts';
import { good, type OwnedHub, ownedHub } from '../hub-in-folder.ts';
import { DrillOnPhone } from './drill-driver.ts';
import { pageErrors } from './page-errors.ts';
import { Phone } from './phone.ts';

const TREE = 'Condensate or float switch holds the system off';
const NOTE = 'The pump’s alarm was heard last week.';

let hub: OwnedHub;
let server: OwnedHub['server'];
let owner: HubClient;
let browser: Browser;
let desk: Page;
let phone: Phone;
let page: Page;
let errors: readonly string[];

async function invited(role: Role): Promise<string> {
  const [made] = good(await owner.invite({ role })).codes;
  if (!made) throw new Error('no code');
  return made.code;
}

beforeAll(async () => {
  hub = await ownedHub();
  ({ server, owner } = hub);

  // The first look at the list compiles every tree; nobody should wait for it in front of a screen.
  await fetch(`${server.url}/editions/index.json`);
  browser = await openBrowser();
  desk = await (await browser.newContext(LAPTOP)).newPage();
  await desk.goto(`${server.url}/desk/#/join/${await invited('trainer')}`);
  await desk.getByLabel('Your name').fill('T. Rowan');
  await desk.getByLabel('this computer').fill('Training room');
  await desk.getByRole('button', { name: 'Join' }).click();
  await desk.getByRole('link', { name: 'Drills', exact: true }).waitFor();

  phone = await Phone.make();
  page = await phone.on();
  errors = pageErrors(page);
  await page.goto(`${server.url}/field/#/join/${await invited('tech')}`);
  await page.getByLabel('Your name in the crew').fill('R. Alder');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.locator('.crew-line').getByText('R. Alder, tech').waitFor();
  await page.getByText('kept on this device').waitFor();
});

afterAll(async () => {
  await phone?.throwAway();
  await browser?.close();
  await hub?.stop();
});

// Steps of one story: each goes on where the one before left it.
test('the trainer makes a drill on a fault of a tree and gives it to one tech', async () => {
  await desk.goto(`${server.url}/desk/#/drills?tree=condensate-or-float-switch-holds-off&bench=condensate-safeties&fault=receptacle-dead`);
  await desk.getByLabel('Wrong in it').waitFor();
  await expect.poll(() => desk.getByLabel('Wrong in it').inputValue()).toBe('receptacle-dead');
  await desk.getByLabel('A word to the tech').fill(NOTE);
  await desk.getByText('The house: as usual').click();
  await desk.getByLabel('Line voltage at the receptacle').fill('many');
  await desk.getByLabel('R. Alder').check();
  await desk.getByRole('button', { name: 'Give the drill' }).click();
  await desk.getByRole('alert').getByText('many').waitFor();
  await desk.getByLabel('Line voltage at the receptacle').fill('118 V');
  await desk.getByRole('button', { name: 'Give the drill' }).click();
  await desk.getByText('Given. It comes to the phones').waitFor();
  await desk.getByText('Still to do it: R. Alder.').waitFor();
  await expect.poll(() => desk.locator('.drill-given').textContent()).not.toContain('receptacle');
  expect.soft(await seriousIn(desk)).toEqual([]);
});

test('the phone gets it, and it is done without a signal, with a restart in the middle', async () => {
  await page.locator('.crew-line').click();
  await page.getByRole('button', { name: 'Try now' }).click();
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByText('1 given to you').waitFor();
  await phone.context.setOffline(true);
  await page.getByText('Find a hidden fault').click();
  // Two taps on the same press begin one drill.
  await page.getByRole('button', { name: `Begin ${TREE}` }).evaluate((button: HTMLElement) => {
    button.click();
    button.click();
  });
  await page.getByText(NOTE).waitFor();
  await page.getByText('118 V').waitFor();
  expect.soft(await seriousIn(page)).toEqual([]);
  await page.getByRole('button', { name: 'Take the meter' }).click();

  const drill = new DrillOnPhone(page);
  expect(await drill.look('unit runs')).toBe('no');
  await drill.dial('AC volts, low-impedance input');
  expect(Number.parseFloat(await drill.read('Y', 'C'))).toBeLessThan(1);
  await drill.dial('Resistance');
  await drill.read('FA', 'FB');
  await page.getByRole('alert').getByText('Not safe').waitFor();
  expect.soft(await seriousIn(page)).toEqual([]);
  await page.getByRole('button', { name: 'Dismiss' }).click();

  const url = page.url();
  await page.reload();
  await expect.poll(() => drill.moves()).toBe(2);
  await expect.poll(() => page.url()).toBe(url);
  await drill.dial('AC volts');
  expect(Number.parseFloat(await drill.read('PL', 'N'))).toBeLessThan(1);
  expect(Number.parseFloat(await drill.read('L1', 'N'))).toBeCloseTo(118, 0);
  await drill.answer("The pump's receptacle is dead.");
  await page.getByText('Right').waitFor();
  const numbers = await drill.numbers();
  expect(numbers['Refused as unsafe']).toEqual(['1', '0']);
  expect(numbers['Readings and looks']?.[0]).toBe('4');
  expect(Number(numbers.Minutes?.[1])).toBeGreaterThan(0);
  expect.soft(await seriousIn(page)).toEqual([]);
});

test('with the signal back the result is on the trainer’s desk, beside the best way', async () => {
  await phone.context.setOffline(false);
  const [given] = good(await owner.drills()).drills;
  await expect.poll(async () => good(await owner.drillRuns(given?.task.id ?? '')).runs.length).toBe(1);
  await desk.goto(`${server.url}/desk/#/guide`);
  await desk.goto(`${server.url}/desk/#/drills`);
  await desk.getByRole('heading', { name: 'Given drills' }).waitFor();
  const row = desk.getByRole('row', { name: /R\. Alder/ });
  await row.waitFor();
  // Right, and not yet what was right: the trainer may want to do the drill too.
  await expect.poll(() => row.textContent()).toContain('right');
  await expect.poll(() => row.textContent()).not.toContain('receptacle');
  await desk.getByRole('button', { name: 'Show what is wrong in it' }).click();
  await expect.poll(() => row.textContent()).toContain('right: receptacle dead');
  await row.getByRole('link', { name: /^Compare/ }).click();
  await desk.locator('.drill-comparison').waitFor();
  await desk.getByRole('heading', { name: `${TREE}: R. Alder` }).waitFor();
  await expect.poll(() => desk.locator('.drill-path').count()).toBe(2);
  await desk.getByText('Refused: Resistance FA to FB.').waitFor();
  expect.soft(await seriousIn(desk)).toEqual([]);
  expect(errors).toEqual([]);
});

test('what was done waits no more on the phone, and a drill that is stopped goes from it', async () => {
  const sync = async (): Promise<void> => {
    await page.goto(`${server.url}/field/#/`);
    await page.locator('.crew-line').click();
    await page.getByRole('button', { name: 'Try now' }).click();
    await page.getByRole('button', { name: 'Close' }).click();
  };
  const { id: _, ...task } = taskOn('condensate-or-float-switch-holds-off', 'condensate-safeties', { fault: 'pump-dead' });
  const { task: given } = good(await owner.giveDrill({ task }));
  await sync();
  await page.getByText('1 given to you').waitFor();
  good(await owner.stopDrill(given.id));
  await sync();
  await page.getByText('1 given to you').waitFor({ state: 'detached' });
  await page.getByText('Find a hidden fault').click();
  await page.getByText('Result').waitFor();
  await expect.poll(() => page.locator('.call-line').count()).toBe(1);
  await expect.poll(() => page.getByRole('button', { name: /^Begin/ }).count()).toBe(0);
});
