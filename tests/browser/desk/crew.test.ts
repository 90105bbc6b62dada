import { afterAll, beforeAll, expect, test } from 'vitest';
import { CrewDriver, type Desk } from './crew-driver.ts';
import { DeskDriver, seriousIn } from './desk-driver.ts';

let crew: CrewDriver;
let owner: Desk;
let other: Desk;

beforeAll(async () => {
  crew = await CrewDriver.start();
  owner = await crew.desk();
  other = await crew.desk();
});

afterAll(() => crew?.stop());

/** What the pages complained of since the last look. */
const complaints = (): string[] => crew.complaints.splice(0);

const section = (desk: Desk, name: string) =>
  desk.page.locator('.crew-page > section', { has: desk.page.getByRole('heading', { name, exact: true, level: 2 }) });

async function isAccessible(desk: Desk): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await desk.page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    expect(await seriousIn(desk.page)).toEqual([]);
  }
  await desk.page.emulateMedia({ colorScheme: 'light' });
}

test('without a hub the crew’s page says how to have one, and nothing that nobody answers is asked', async () => {
  const alone = await DeskDriver.start();
  try {
    for (const hash of ['#/crew', '#/join', '#/join/AAAAA-AAAAA']) {
      const page = await alone.open(hash);
      await page.getByRole('heading', { name: 'This copy works alone' }).waitFor();
      expect(await seriousIn(page)).toEqual([]);
    }
    await alone.endTest();
  } finally {
    await alone.stop();
  }
});

// From here on steps of one story: each goes on where the one before left it.
test('before the first owner, the crew’s page says where the link is', async () => {
  await owner.go('#/crew');
  await owner.page.getByRole('heading', { name: 'This computer is not in the crew' }).waitFor();
  await owner.page.getByText('The crew has no owner yet').waitFor();
  await isAccessible(owner);
  expect(complaints()).toEqual([]);
});

test('the link of the terminal makes an owner; its code leaves the address bar, and what is wrong with a code is told', async () => {
  const { page } = owner;
  await owner.go('#/join/AAAAA-AAAAA-AAAAA-AAAAA');
  await expect.poll(() => page.url()).toBe(`${crew.server.url}/desk/#/join`);
  await page.getByLabel('Your name in the crew').fill('M. Birch');
  await page.getByLabel('What to call this computer').fill('Office laptop');
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.getByRole('alert').getByText('The code does not hold').waitFor();
  await isAccessible(owner);
  await expect.poll(() => page.getByLabel('What to call this computer').inputValue()).toBe('Office laptop');
  await page.getByLabel('Code of the invitation').fill(crew.ownerCode.toLowerCase().replaceAll('-', ' '));
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.getByRole('heading', { name: 'You are in the crew' }).waitFor();
  await expect.poll(() => page.locator('.crew-page').textContent()).toContain('M. Birch, owner');
  await page.getByRole('link', { name: 'Go to the crew’s page' }).click();
  await section(owner, 'People').getByText('You are alone in the crew so far').waitFor();
  expect(await page.evaluate(() => document.cookie)).toBe('');
  complaints();
});

test('invitations are made, listed and stopped by keyboard; their codes are shown once, with links and pictures', async () => {
  const { page } = owner;
  await page.getByLabel('To join as').focus();
  // One letter: after a pause between two, the second would choose anew.
  await page.keyboard.type('S');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Evening desk');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type('2');
  await page.keyboard.press('Enter');
  const codes = page.getByRole('heading', { name: '2 codes, each for one person' });
  await codes.waitFor();
  await expect.poll(() => codes.evaluate((heading) => heading === document.activeElement)).toBe(true);
  const links = await page.locator('.fresh-code dd code').allTextContents();
  expect(links).toHaveLength(4);
  for (const link of links) expect(link).toMatch(new RegExp(`^${crew.server.url}/(field|desk)/#/join/([A-Z0-9]{5}-){3}[A-Z0-9]{5}$`));
  const picture = page.locator('.fresh-code img').first();
  await expect.poll(() => picture.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(0);
  await isAccessible(owner);
  await page.getByRole('button', { name: 'Close', exact: true }).press('Enter');
  const open = section(owner, 'Invitations').locator('tbody tr');
  await expect.poll(() => open.count()).toBe(2);
  for (const left of [1, 0]) {
    await page.getByRole('button', { name: 'Stop the invitation for Evening desk, senior tech' }).first().press('Enter');
    await expect.poll(() => open.count()).toBe(left);
  }
  await section(owner, 'Invitations').getByText('None is open.').waitFor();
  expect(complaints()).toEqual([]);
  // A code that was stopped lets nobody in.
  await other.go(new URL(links[1] ?? '').hash);
  await other.page.getByLabel('Your name in the crew').fill('R. Alder');
  await other.page.getByLabel('What to call this computer').fill('Van laptop');
  await other.page.getByRole('button', { name: 'Join', exact: true }).click();
  await other.page.getByRole('alert').getByText('The code does not hold').waitFor();
  complaints();
});

test('each role is shown what it may do, and a new role shows it at once', async () => {
  await other.join(await owner.invite('Tech', 'R. Alder', 'desk'), 'R. Alder', 'Van laptop');
  await other.page.getByText('R. Alder, tech').waitFor();
  await other.go('#/crew');
  await section(other, 'Devices').getByText('Van laptop (this computer)').waitFor();
  await expect.poll(() => other.page.getByRole('heading', { level: 2 }).allTextContents()).toEqual(['R. Alder', 'Devices']);
  await isAccessible(other);

  await owner.page.reload();
  await owner.page.getByRole('button', { name: 'Change R. Alder' }).click();
  const change = owner.page.locator('.crew-change');
  await change.getByLabel('Role').selectOption({ label: 'Trainer' });
  await change.getByRole('button', { name: 'Save' }).click();
  await change.getByText('Changed.').waitFor();
  await isAccessible(owner);
  await other.page.reload();
  await section(other, 'People').getByRole('rowheader', { name: 'M. Birch' }).waitFor();
  await expect.poll(() => other.page.getByRole('heading', { level: 2 }).allTextContents()).toEqual(['R. Alder', 'Invitations', 'People', 'Devices']);
  await expect.poll(() => other.page.getByLabel('To join as').locator('option').allTextContents()).toEqual(['Tech']);
  await expect.poll(() => other.page.getByRole('button', { name: /^Change/ }).count()).toBe(0);
  expect(complaints()).toEqual([]);
});

test('the last owner stays one', async () => {
  const { page } = owner;
  await page.getByRole('button', { name: 'Change M. Birch' }).click();
  const change = page.locator('.crew-change');
  await change.getByLabel('Role').selectOption({ label: 'Tech' });
  await change.getByRole('button', { name: 'Save' }).click();
  await change.getByRole('alert').getByText('The crew would have no owner left.').waitFor();
  await page.getByRole('button', { name: 'Change M. Birch' }).click();
  complaints();
});

test('another device of one’s own is added with a code, and a lost one is stopped and says so', async () => {
  await other.page.getByRole('button', { name: 'Add another device of mine' }).click();
  await other.page.getByRole('heading', { name: 'A code for another device of yours' }).waitFor();
  const link = (await other.page.locator('.fresh-code dd code').nth(1).textContent()) ?? '';
  const lost = await crew.desk();
  await lost.join(link, '', 'Lost laptop');
  await lost.page.getByText('R. Alder, trainer').waitFor();
  await owner.page.reload();
  await owner.page.getByLabel('Whose').selectOption({ label: 'R. Alder' });
  await owner.page.getByRole('button', { name: 'Stop Lost laptop' }).press('Enter');
  // The safe button has the keyboard; Escape leaves everything as it is.
  await owner.page.keyboard.press('Escape');
  await owner.page.getByRole('button', { name: 'Stop Lost laptop' }).press('Enter');
  await isAccessible(owner);
  await owner.page.getByRole('button', { name: 'Stop it' }).click();
  await section(owner, 'Devices')
    .locator('tr', { hasText: 'Lost laptop' })
    .getByText(/^stopped/)
    .waitFor();
  complaints();
  await lost.go('#/crew');
  await lost.page.getByRole('heading', { name: 'This device was taken out of the crew.' }).waitFor();
  await lost.page.getByRole('link', { name: 'Enter a code' }).waitFor();
  // It is still told so when it looks again.
  await lost.page.reload();
  await lost.page.getByRole('heading', { name: 'This device was taken out of the crew.' }).waitFor();
  await lost.context.close();
  // It learns of it by being refused, once for each thing that the page asked at the same time.
  expect(complaints().filter((text) => !text.includes('401'))).toEqual([]);
});

test('a person is taken out and let back', async () => {
  const { page } = owner;
  await page.getByRole('button', { name: 'Change R. Alder' }).click();
  await page.getByRole('button', { name: 'Take out of the crew…' }).click();
  await page.getByRole('button', { name: 'Take out', exact: true }).click();
  await page.getByText('R. Alder is out of the crew.').waitFor();
  expect(complaints()).toEqual([]);
  // What is done on the page that still stands there is refused, and takes nothing that they come back with.
  await other.page.getByRole('button', { name: 'Invite', exact: true }).click();
  await other.page.getByRole('heading', { name: 'You were taken out of the crew.' }).waitFor();
  expect(complaints().filter((text) => !text.includes('401'))).toEqual([]);
  await other.page.reload();
  await other.page.getByRole('heading', { name: 'You were taken out of the crew.' }).waitFor();
  await page.getByRole('button', { name: 'Let back into the crew' }).click();
  await page.getByText('R. Alder is in the crew again.').waitFor();
  await other.page.reload();
  await section(other, 'People').getByRole('rowheader', { name: 'M. Birch' }).waitFor();
  expect(complaints()).toEqual([]);
});

test('who did what is listed, the latest first', async () => {
  const { page } = owner;
  const told = page.locator('.crew-audit li').locator('span');
  // Nobody asked again: what was done on the page is in it.
  await expect.poll(() => told.first().textContent()).toBe('M. Birch let R. Alder back into the crew');
  const texts = await told.allTextContents();
  expect(texts[1]).toBe('M. Birch took R. Alder out of the crew');
  expect(texts).toContain('M. Birch made R. Alder trainer (was tech)');
  expect(texts.at(-1)).toBe('At the hub’s machine, someone made a link for an owner');
});

test('while the hub cannot be reached the page says so and comes back', async () => {
  const { page, context } = owner;
  await context.setOffline(true);
  await page.locator('.crew-audit + p').getByRole('button', { name: 'Ask again' }).click();
  await page.getByRole('alert').getByText('The hub cannot be reached.').waitFor();
  await context.setOffline(false);
  await page.getByRole('button', { name: 'Ask again' }).first().click();
  await expect.poll(() => page.getByRole('alert').count()).toBe(0);
  complaints();
});

test('leaving asks back, and the computer is out', async () => {
  const { page } = owner;
  await page.getByRole('button', { name: 'Leave the crew…' }).click();
  await page.getByRole('button', { name: 'Stay' }).click();
  await expect.poll(() => page.getByRole('button', { name: 'Leave the crew…' }).evaluate((button) => button === document.activeElement)).toBe(true);
  await page.getByRole('button', { name: 'Leave the crew…' }).click();
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await page.getByRole('heading', { name: 'This computer is not in the crew' }).waitFor();
  expect(complaints()).toEqual([]);
});
