import { fileURLToPath } from 'node:url';
import type { Locator } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { prepare, usualFacts } from '../../../engine/bench/index.ts';
import { TreeFolder, treeName } from '../../../engine/cli/tree-folder.ts';
import { BenchWalk, type CaseEnd, walkCase } from '../../../engine/proof/index.ts';
import { fromSi, quantityKind, unitOf } from '../../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../../engine/trade/index.ts';
import { isChoice } from '../../../engine/tree/index.ts';
import { buildEdition, type CompiledEdition, compileEdition, factUnit } from '../../../engine/walk/index.ts';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { plainWords } from '../../../shared/ui/words/plain-words.ts';
import { FieldDriver } from './field-driver.ts';
import { pageErrors } from './page-errors.ts';
import { Phone } from './phone.ts';

/** Each tree of the shelf with the fault that its house has, and the finding that must name it. */
const CALLS: readonly (readonly [tree: string, bench: string, fault: string, finding: string])[] = [
  ['condensate-or-float-switch-holds-off', 'condensate-safeties', 'pump-dead', 'Pump dead'],
  ['contactor-will-not-pull-in', 'cooling-call', 'coil-open', 'Coil open'],
  ['control-fuse-blows', 'fuse-and-its-leads', 'contactor-coil-shorted', 'Contactor coil shorted'],
  ['control-has-no-power', 'blank-thermostat', 'cable-shorted', 'Thermostat cable shorted'],
  ['dry-house-though-water-runs', 'pad-at-work', 'fan-run-open', 'Fan wire open'],
  ['ignition-call-to-proved-flame', 'ignition-sequence', 'igniter-open', 'Igniter open'],
  ['no-water-at-the-pad', 'own-transformer', 'splice-corroded', 'Splice corroded'],
  ['outdoor-sensor-lies', 'outdoor-sensor', 'splice-corroded', 'Splice corroded'],
  ['water-never-stops', 'pad-with-valve', 'contact-welded', 'Contact welded'],
  ['windows-sweat-in-the-cold', 'frost-control', 'sensor-warm', 'Outdoor sensor reads warm'],
];

const folder = new TreeFolder(fileURLToPath(new URL('../../../trees', import.meta.url)));

/** What a tech with this fault before him sees and reads, step by step, from the simulated bench in the usual house. */
function toldBy(edition: CompiledEdition, bench: string, fault: string): CaseEnd {
  const found = folder.bench(bench)?.bench;
  if (!found) throw new Error(bench);
  const { ends } = walkCase(edition, new BenchWalk(edition, bench, prepare(found)), { fault, facts: usualFacts(found) }, fault);
  const [end] = ends;
  if (!end || ends.length !== 1) throw new Error(`“${fault}” ends in ${ends.length} ways; a walk needs a fault that ends in one.`);
  return end;
}

/** Presses holds as those do who cannot hold: twice, by no pointer. */
class AssistedDriver extends FieldDriver {
  override async hold(button: Locator): Promise<void> {
    await button.evaluate((element: HTMLElement) => element.click());
    await this.page.locator('.hold-button[data-hold="ask-again"]').first().waitFor();
    await button.evaluate((element: HTMLElement) => element.click());
  }

  async choose(words: string): Promise<void> {
    const choices = await this.page.locator('.choice .choice-words').allTextContents();
    expect(choices).toContain(words);
    await this.page.locator('.choice').nth(choices.indexOf(words)).tap();
  }

  /** One step of a case, entered as its screen asks for it. */
  async take(edition: CompiledEdition, { step: { step }, on, shown }: CaseEnd['path'][number]): Promise<void> {
    await expect.poll(() => this.title()).toBe(step.title);
    await this.readCautions();
    await this.setUp();
    const before = await this.mark();
    if (step.kind === 'reading') {
      const reads = shown.reading?.reads ?? Number.NaN;
      await this.pad(reads === 'open' ? 'OL' : plainNumber(reads, step.unit ?? quantityKind(step.takes).unit));
      await this.page.getByRole('button', { name: 'Enter', exact: true }).tap();
    } else if (step.kind === 'look') await this.choose(on);
    else if (step.kind === 'ask') await this.tell(edition, step.fact, on);
    else await this.press(/^Done$/);
    await this.moved(before);
    if ((await this.page.locator('.verdict').count()) > 0) await this.goOn();
  }

  private async tell(edition: CompiledEdition, fact: string, on: string): Promise<void> {
    const asked = edition.facts.get(fact);
    if (!asked) throw new Error(fact);
    if (isChoice(asked.spec)) return this.choose(plainWords(on));
    await this.pad(plainNumber(asked.usual, factUnit(asked.spec) ?? ''));
    await this.page.getByRole('button', { name: 'Enter', exact: true }).tap();
  }
}

/** An SI value as a tech types it in a unit that the pad takes for granted: no more digits than a display has. */
function plainNumber(si: number, symbol: string): string {
  const unit = unitOf(symbol);
  return String(Number((unit ? fromSi(si, unit) : si).toPrecision(4)));
}

let server: RunningServer;
let phone: Phone;
let field: AssistedDriver;
let errors: readonly string[];

beforeAll(async () => {
  server = await startServer({ port: 0, host: '127.0.0.1' });
  phone = await Phone.make();
  const page = await phone.on();
  errors = pageErrors(page);
  field = new AssistedDriver(page, server.url);
});

afterAll(async () => {
  await phone?.throwAway();
  await server?.close();
});

test('every tree of the shelf has a call here', () => {
  expect(CALLS.map(([tree]) => tree)).toEqual(folder.treeFiles().map(treeName));
});

describe.each(CALLS)('%s on %s with %s', (name, bench, fault, finding) => {
  test('ends on its finding, is repaired, put back, tried again and reported', async () => {
    const built = buildEdition(name, folder.sources(name));
    if (!built.ok) throw new Error(JSON.stringify(built.problem));
    const edition = compileEdition(built.value, TRADE_FUNCTIONS);
    const { title, recheck } = edition.root;
    const told = toldBy(edition, bench, fault);
    expect(told.at.step.title).toBe(finding);

    await field.openCall(title, 'Elm Street 12');
    await field.start();
    for (const each of told.path) await field.take(edition, each);
    await expect.poll(() => field.title()).toBe(finding);

    await field.closeFixed(recheck?.passes ?? '');
    const report = await field.page.locator('.report').textContent();
    for (const words of ['Elm Street 12', 'Fixed', finding]) expect(report).toContain(words);
    expect(errors).toEqual([]);
  });
});
