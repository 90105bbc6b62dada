import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { canonicalHash, editionHash, type WalkLine, walkableEdition } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import type { HubClient } from '../../shared/sync/hub-client.ts';
import type { ListedEdition } from '../../shared/sync/wire/edition-wire.ts';
import { editionTitled } from '../crew/testing/sample-walks.ts';
import { CrewDriver, type Desk } from './desk/crew-driver.ts';
import { Phone } from './field/phone.ts';
import { good, ownerOf } from './hub-in-folder.ts';

// Markup and script in everything that a person can type, through the hub and into both apps: shown as the text it is, and never run.

const SCRIPT = '<img src=x onerror="ran=1"><script>ran=1</script>';
/** Each field with its own text, so that what is on a screen can be told from the rest. */
const typed = (field: string): string => `${field} ${SCRIPT}`;

const first = editionTitled(typed('title'));
const walkable = walkableEdition(first.edition);

let crew: CrewDriver;
let owner: HubClient;
let desk: Desk;
let phone: Phone;
let page: Page;

type Watched = Window & { ran?: unknown; violations?: string[] };

/** Notes in the page what is run by text, and what the page's policy has to stop: neither may come to pass. */
const watch = (one: Page): Promise<void> =>
  one.addInitScript(() => {
    const watched = window as Watched;
    watched.violations = [];
    addEventListener('securitypolicyviolation', (event) => watched.violations?.push(`${event.violatedDirective} ${event.blockedURI}`));
  }) as unknown as Promise<void>;

/** What stands on the screen or in its fields has all of these texts, and none of them has become anything but text. */
async function shows(one: Page, ...fields: readonly string[]): Promise<void> {
  for (const field of fields)
    await expect
      .poll(
        () =>
          one.evaluate(
            () =>
              `${document.body.textContent} ${[...document.querySelectorAll('input, textarea')].map((box) => (box as HTMLInputElement).value).join(' ')}`,
          ),
        { timeout: 60_000, message: `${field} at ${one.url()}` },
      )
      .toContain(typed(field));
  await harmless(one);
}

async function harmless(one: Page): Promise<void> {
  const seen = await one.evaluate(() => ({
    ran: (window as Watched).ran ?? null,
    violations: (window as Watched).violations,
    made: document.querySelectorAll('img[src="x"], [onerror], body script:not([src])').length,
  }));
  expect(seen, one.url()).toEqual({ ran: null, violations: [], made: 0 });
}

/** A closed call in which everything that can be typed is script. */
function scriptedWalk(id: string): readonly WalkLine[] {
  const driver = new WalkDriver(walkable, id);
  driver.must({ type: 'opened', by: typed('by').slice(0, 80), site: typed('site') }, { type: 'noted', text: typed('note') });
  driver.readCautions().must({ type: 'went-on' }).tell('wiring', 'own').read('27');
  driver.must({ type: 'photographed', photo: 'photo-none', ask: typed('ask') });
  driver.must({ type: 'jumped', tree: 'dry-pad', step: 'power', why: typed('jump') }).read('27');
  driver.readCautions().must({ type: 'did' }).look('runs');
  driver.must({ type: 'found' }, { type: 'repaired', done: true, note: typed('repair') }).putAllBack();
  driver.must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' });
  return driver.lines;
}

/** One with a step that could not be done, and then a line that no walk takes: a reading that is no number. */
function brokenWalk(id: string): readonly WalkLine[] {
  const driver = new WalkDriver(walkable, id);
  driver
    .must({ type: 'opened', site: typed('site') })
    .readCautions()
    .must({ type: 'went-on' })
    .tell('wiring', 'own')
    .read('27')
    .readCautions();
  driver.must({ type: 'could-not', why: typed('why') });
  const last = driver.lines.at(-1) as WalkLine;
  const unsealed = {
    walk: id,
    seq: last.seq + 1,
    time: last.time,
    mono: last.mono,
    edition: last.edition,
    event: { type: 'read' as const, typed: typed('read').slice(0, 60) },
    before: last.hash,
  };
  return [...driver.lines, { ...unsealed, hash: canonicalHash(unsealed) }];
}

beforeAll(async () => {
  crew = await CrewDriver.start();
  owner = await ownerOf(crew.server.url, crew.ownerCode, typed('owner'), typed('office'));
  good(
    await owner.publish({
      hash: first.hash,
      edition: first.edition,
      why: typed('why published'),
      changes: [typed('change')],
      accepted: { x: typed('accepted') },
    }),
  );
  good(await owner.upload({ lines: scriptedWalk('scripted'), tails: [] }));
  good(await owner.upload({ lines: brokenWalk('broken'), tails: [] }));
  good(await owner.confirm('scripted', { held: false, bench: typed('bench'), fault: typed('fault'), note: typed('confirmed') }));
  good(await owner.invite({ role: 'tech', note: typed('invitation') }));
  phone = await Phone.make();
  page = await phone.on();
  await watch(page);
  desk = await crew.desk();
  await watch(desk.page);
});

afterAll(async () => {
  await phone?.throwAway();
  await crew?.stop();
});

describe('the field app', () => {
  test('joins under a name and a device that are script, and lists a tree of that title', { timeout: 400_000 }, async () => {
    const [made] = good(await owner.invite({ role: 'tech' })).codes;
    await page.goto(`${crew.server.url}/field/#/join/${made?.code}`);
    await page.getByLabel('Your name in the crew').fill(typed('tech'));
    await page.getByLabel('What to call this device').fill(typed('phone'));
    await page.getByRole('button', { name: 'Join', exact: true }).click();
    await page.locator('.crew-line').getByText('All sent to the crew').waitFor();
    await shows(page, 'tech', 'title');
    await page.locator('.crew-line').click();
    await shows(page, 'phone');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
  });

  test('opens a call at such a site, notes such a note, and shows both', async () => {
    await page.locator('.tree-line', { hasText: typed('title') }).click();
    await page.getByLabel('Site').fill(typed('house'));
    await page.getByRole('button', { name: 'Open the call' }).click();
    await page.locator('.walk').waitFor();
    await page.getByRole('button', { name: /^More/ }).click();
    await page
      .getByRole('button', { name: /^(Write a )?[Nn]ote/ })
      .first()
      .click();
    await page.getByLabel('Stands in the report as you write it').fill(typed('noted'));
    await page.getByRole('button', { name: 'Keep the note' }).click();
    await page.getByRole('button', { name: /^More/ }).click();
    await page
      .getByRole('button', { name: /^(Write a )?[Nn]ote/ })
      .first()
      .click();
    await shows(page, 'noted');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('button', { name: /^Path/ }).click();
    await page.getByRole('dialog', { name: 'Path' }).waitFor();
    await harmless(page);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.goto(`${crew.server.url}/field/#/`);
    await shows(page, 'house');
  });

  test('takes such a log in, and shows its report', async () => {
    const text = scriptedWalk('scripted')
      .map((line) => JSON.stringify(line))
      .join('\n');
    await page.getByLabel('Open a saved call log').setInputFiles({ name: 'call.jsonl', mimeType: 'application/jsonl', buffer: Buffer.from(text) });
    const said = page.locator('.start-import', { hasText: 'Open a saved call log' }).locator('p');
    // What the start screen says of it is told with it, as long as that stands there.
    await expect.poll(async () => [page.url(), ...(await said.allTextContents())].join(' '), { timeout: 60_000 }).toContain('/walk/scripted');
    await page.locator('a[href="#/walk/scripted/report"]').click();
    await page.getByRole('heading', { name: 'Service report' }).waitFor();
    await shows(page, 'site', 'note', 'repair', 'by', 'ask');
  });

  test('tells why an edition is newer, and why one was taken back, as it was written', async () => {
    const second = editionTitled(typed('second title'));
    // In this order: a list with the newer one then has both, whenever the phone asks for it, and a call shows what its phone had when it was opened.
    good(await owner.withdraw(first.hash, typed('why back')));
    good(await owner.publish({ hash: second.hash, edition: second.edition, basedOn: first.hash, why: typed('why newer') }));
    await page.goto(`${crew.server.url}/field/#/`);
    await page.locator('.crew-line').click();
    await page.getByRole('button', { name: 'Try now' }).click();
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await shows(page, 'second title');
    await page.locator('.call-line-open').click();
    await page.locator('.walk-notice').click();
    await shows(page, 'why newer', 'why back');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
  });

  test('lists a drill with such a note', async () => {
    const entries: readonly ListedEdition[] = good(await owner.editions()).list?.entries ?? [];
    const shipped = entries.find(({ name }) => name === 'no-water-at-the-pad');
    const edition = good(await owner.edition(shipped?.hash ?? ''));
    expect(editionHash(edition)).toBe(shipped?.hash);
    const bench = edition.trees[edition.root]?.benches[0] ?? '';
    good(await owner.giveDrill({ task: { edition: shipped?.hash ?? '', tree: edition.root, bench, order: 'free', note: typed('drill') } }));
    await page.goto(`${crew.server.url}/field/#/`);
    await page.locator('.crew-line').click();
    await page.getByRole('button', { name: 'Try now' }).click();
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.goto(`${crew.server.url}/field/#/drills`);
    await shows(page, 'drill');
  });
});

describe('the desk', () => {
  test('joins under such a name, and lists people, devices, invitations and deeds with theirs', async () => {
    const [made] = good(await owner.invite({ role: 'owner' })).codes;
    await desk.join(`${crew.server.url}/desk/#/join/${made?.code}`, typed('trainer'), typed('laptop'));
    await harmless(desk.page);
    await desk.go('#/crew');
    await shows(desk.page, 'trainer', 'laptop', 'owner', 'tech', 'invitation');
  });

  test.each([
    ['the list of walks', '#/walks', 'Walks', ['site', 'title', 'by']],
    ['a walk', '#/walks/scripted', typed('title'), ['site']],
    ['a walk that ends where it could not go on', '#/walks/broken', typed('title'), ['site']],
    ['the drills', '#/drills', 'Drills', ['drill']],
    ['a picture of the crew', '#/tree/dry-pad/crew', 'What walks show of', ['title']],
    ['the publications of a tree', '#/tree/no-water-at-the-pad/publish', 'The crew’s editions', []],
  ] as const)('shows %s', async (_what, address, heading, fields) => {
    // Nothing of the page before is left that could be taken for this one.
    await desk.page.goto('about:blank');
    await desk.go(address);
    await desk.page.getByRole('heading', { name: heading }).first().waitFor();
    await shows(desk.page, ...fields);
  });
});

test.each(['field', 'desk'] as const)('even markup that got into a page of the %s would not run', async (app) => {
  const one = app === 'field' ? page : desk.page;
  const answer = await one.goto(`${crew.server.url}/${app}/`);
  expect(answer?.headers()['content-security-policy'] ?? '').toContain("script-src 'self'");
  expect(answer?.headers()['content-security-policy']).not.toContain('unsafe-inline');
  await one.evaluate((markup) => {
    const holder = document.createElement('div');
    holder.innerHTML = markup;
    document.body.append(holder);
    const script = document.createElement('script');
    script.textContent = 'window.ran = 1';
    document.body.append(script);
  }, SCRIPT);
  await expect.poll(() => one.evaluate(() => (window as Watched).violations?.length ?? 0)).toBeGreaterThan(1);
  expect(await one.evaluate(() => (window as Watched).ran ?? null)).toBeNull();
});
