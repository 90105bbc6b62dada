import { fromSi, quantityKind, readTypedValue, unitOf } from '../../../engine/quantity/index.ts';
import type { MeasureCode } from '../../../engine/review/index.ts';
import { type ReadingStep, writeProse } from '../../../engine/tree/index.ts';
import { beginWalk, type ScaleBand, takeEvent, viewOf, type Walk, type WalkEvent, type WalkLine, type WalkView } from '../../../engine/walk/index.ts';
import type { CallGround } from './shelf-grounds.ts';

/** How likely a tech is to do each of these: a share of calls, or of the cautions and readings met. */
export type Habits = {
  /** Of the screens of cautions met for the first time on a call. */
  readonly fastCautions: number;
  /** Of calls: goes to a finding after the first readings. */
  readonly guesses: number;
  /** Of the readings and looks after which the same is read once more. */
  readonly readsAgain: number;
  /** Of calls: leaves when it is repaired, the complaint not tried again. */
  readonly noRecheck: number;
  /** Of the readings, looks and acts met, without a word why. */
  readonly couldNots: number;
  /** Of the readings: the number caught while the meter was still moving, at the edge of its band, and gone on with. */
  readonly atEdges: number;
};

export const NO_HABITS: Habits = { fastCautions: 0, guesses: 0, readsAgain: 0, noRecheck: 0, couldNots: 0, atEdges: 0 };

/** A step at which everybody takes longer than the tree says. */
export type SlowStep = { readonly key: string; readonly times: number };

export type PlantedCode = Extract<
  MeasureCode,
  'fast-caution' | 'premature' | 'redundant' | 'not-rechecked' | 'could-not' | 'skipped' | 'accepted-too-close'
>;

/** Something that was done on purpose, or of necessity, and the line of the log that it is. */
export type Planted = { readonly code: PlantedCode; readonly seq: number };

export type CallTerms = {
  readonly id: string;
  readonly by: string;
  readonly ground: CallGround;
  readonly fault: string;
  readonly habits: Habits;
  /** In [0, 1). */
  readonly random: () => number;
  /** Milliseconds since 1970. */
  readonly start: number;
  readonly slow?: SlowStep;
};

export type GeneratedCall = {
  readonly by: string;
  readonly ground: CallGround;
  readonly fault: string;
  readonly walk: Walk;
  readonly lines: readonly WalkLine[];
  readonly planted: readonly Planted[];
  /** Minutes that passed while it was not paused. */
  readonly minutes: number;
};

const MOST_STEPS = 120;

/** A call as a tech with habits walks it, on a bench with a fault, each event taken by the walk as the field app takes it. */
export const generatedCall = (terms: CallTerms): GeneratedCall => new Call(terms).whole();

/** What is typed where the same band ends, to two places; the number itself where its band has no end, or none that can be written so. */
function edgeOfItsBand({ scale }: WalkView, { takes, unit: own }: Pick<ReadingStep, 'takes' | 'unit'>, typed: string): string {
  const si = (text: string): number | undefined => {
    const read = readTypedValue(text, takes, own);
    return read.ok && read.value.si !== 'open' ? read.value.si : undefined;
  };
  const value = si(typed);
  const unit = unitOf(own ?? quantityKind(takes).unit);
  const isIn = (at: number | undefined, band: ScaleBand): boolean =>
    at !== undefined && at >= (band.low ?? -Infinity) && at < (band.high ?? Infinity);
  const band = scale?.bands.find((each) => (each.low !== null || each.high !== null) && isIn(value, each));
  if (!unit || !band) return typed;
  const { floor } = quantityKind(takes);
  const ends = [
    ...(band.low !== null && band.low > floor ? [Math.ceil(fromSi(band.low, unit) * 100) / 100] : []),
    ...(band.high !== null ? [(Math.ceil(fromSi(band.high, unit) * 100) - 1) / 100] : []),
  ].map((end) => end.toFixed(2));
  return ends.find((end) => isIn(si(end), band)) ?? typed;
}

class Call {
  private walk: Walk;
  private readonly lines: WalkLine[] = [];
  private readonly planted: Planted[] = [];
  private readonly met = new Set<string>();
  private clock: number;
  private minutes = 0;
  private taken = 0;
  private readonly guessAt: number;
  private readonly leavesEarly: boolean;
  private there: string | undefined;

  constructor(private readonly terms: CallTerms) {
    const { random, habits } = terms;
    this.walk = beginWalk(terms.ground.edition, terms.id);
    this.clock = terms.start;
    this.guessAt = random() < habits.guesses ? 1 + Math.floor(random() * 2) : -1;
    this.leavesEarly = random() < habits.noRecheck;
    this.there = terms.fault;
  }

  whole(): GeneratedCall {
    const { by, ground, fault } = this.terms;
    this.send({ type: 'opened', by, site: `house ${this.terms.id}` }, 0);
    for (let steps = 0; steps < MOST_STEPS && this.work(viewOf(this.walk)); steps += 1) {}
    return { by, ground, fault, walk: this.walk, lines: this.lines, planted: this.planted, minutes: this.minutes };
  }

  /** Does what the screen asks; false when the call is over. */
  private work(view: WalkView): boolean {
    switch (view.phase) {
      case 'opening':
        this.readCautions(view);
        this.send({ type: 'went-on' }, 3);
        return true;
      case 'cautions':
        this.readCautions(view);
        return true;
      case 'work':
        return this.step(view);
      case 'finding':
        return this.find();
      case 'handoff':
        this.send({ type: 'went-on' }, 20);
        return true;
      case 'put-back':
        return this.putBack(view);
      case 'recheck':
        return this.recheck(view);
      case 'closing':
        this.send({ type: 'closed' }, 10);
        return false;
      default:
        return false;
    }
  }

  private readCautions({ cautions, step }: WalkView): void {
    const { habits } = this.terms;
    const place = step?.id ?? '';
    const isNew = !this.met.has(place);
    this.met.add(place);
    const isFast = isNew && this.chance(habits.fastCautions);
    for (const [caution, { mustRead, read, caution: told }] of cautions.entries()) {
      if (!mustRead || read) continue;
      const words = writeProse(told.prose).split(/\s+/).length;
      if (isFast) this.plant('fast-caution');
      this.send({ type: 'caution-read', caution }, isFast ? words / 50 : (words / 4) * this.about(0.2));
    }
  }

  private step(view: WalkView): boolean {
    const { step } = view;
    if (!step) return false;
    for (const { setting, state } of view.unmet) this.send({ type: 'did', does: `turn ${setting} ${state}` }, 40 * this.about(0.3));
    const at = this.walk.snapshot.context.at ?? '';
    const compiled = this.terms.ground.edition.compiled.steps.get(at);
    if (!compiled) return false;
    const { kind } = step;
    if (kind === 'finding' || kind === 'handoff') return false;
    if (compiled.cannot !== undefined && kind !== 'ask' && this.chance(this.terms.habits.couldNots)) {
      this.plant('could-not');
      this.plant('skipped');
      return this.send({ type: 'could-not' }, 15);
    }
    const seconds = step.minutes * 60 * this.about(0.25) * (this.terms.slow?.key === at ? this.terms.slow.times : 1);
    if (kind === 'act') return this.send({ type: 'did' }, seconds);
    const shown = this.terms.ground.at(compiled, this.there, this.walk.snapshot.context.circuit);
    if (!shown) {
      // What the bench has no word for, no two calls show alike.
      const ways = [...compiled.leadsTo.keys()];
      const on = ways[Math.floor(this.terms.random() * ways.length)] ?? '';
      if (kind !== 'look') throw new Error(`${at} cannot be told on ${this.terms.ground.bench}`);
      return this.answer({ type: 'looked', saw: on }, seconds);
    }
    if (kind === 'ask') {
      const fact = view.facts.find(({ name }) => name === step.fact);
      return this.answer(
        { type: 'told', fact: step.fact, typed: shown.on === 'known' || shown.on === undefined ? (fact?.text ?? '') : shown.on },
        15,
      );
    }
    const tells = kind === 'look' || (step.proves === undefined && step.sets === undefined);
    const isAtEdge = kind === 'reading' && tells && this.chance(this.terms.habits.atEdges);
    const typed = shown.typed ?? '';
    const event: WalkEvent =
      kind === 'look' ? { type: 'looked', saw: shown.on ?? '' } : { type: 'read', typed: isAtEdge ? edgeOfItsBand(view, step, typed) : typed };
    this.answer(event, seconds);
    this.taken += 1;
    // A number that was too close to call is worth reading again.
    if (tells && !isAtEdge && this.chance(this.terms.habits.readsAgain)) this.again(at, event, seconds);
    if (this.taken === this.guessAt) this.guess();
    return true;
  }

  private answer(event: WalkEvent, seconds: number, planted?: PlantedCode): boolean {
    if (this.terms.random() < 0.02) {
      this.send({ type: 'paused' }, 5);
      this.send({ type: 'resumed' }, 600 + 1800 * this.terms.random(), true);
    }
    if (planted) this.plant(planted);
    this.send(event, seconds);
    const { phase, verdict } = viewOf(this.walk);
    if (phase !== 'verdict') return true;
    if (verdict?.tooClose) this.plant('accepted-too-close');
    return this.send({ type: 'went-on', ...(verdict?.tooClose && { tooClose: true }) }, 6 * this.about(0.3));
  }

  /** Back to what was just read, without anything having changed, and the same once more. */
  private again(key: string, event: WalkEvent, seconds: number): void {
    const [tree = '', step = ''] = key.split('/');
    const { steps } = this.terms.ground.edition.compiled;
    const next = this.walk.snapshot.context.at;
    const kind = next === undefined ? undefined : steps.get(next)?.step.kind;
    if (kind === undefined || kind === 'handoff') return;
    this.plant('skipped');
    this.send({ type: 'jumped', tree, step }, 5);
    this.readCautions(viewOf(this.walk));
    for (const { setting, state } of viewOf(this.walk).unmet) this.send({ type: 'did', does: `turn ${setting} ${state}` }, 40);
    this.answer(event, seconds, 'redundant');
  }

  /** To a finding that names faults of this bench, whatever was read. */
  private guess(): void {
    const { ground, random } = this.terms;
    const { at } = this.walk.snapshot.context;
    const known = new Set(ground.faults.map(({ fault }) => fault));
    const findings = [...ground.edition.compiled.steps.values()].filter(
      ({ key, step }) => key !== at && step.kind === 'finding' && step.faults.some((fault) => known.has(fault)),
    );
    const to = findings[Math.floor(random() * findings.length)];
    const kind = at === undefined ? undefined : ground.edition.compiled.steps.get(at)?.step.kind;
    if (!to || kind === 'finding' || kind === 'handoff') return;
    this.plant('skipped');
    this.send({ type: 'jumped', tree: to.tree.name, step: to.step.id }, 8);
    this.readCautions(viewOf(this.walk));
    if (viewOf(this.walk).phase !== 'finding') return;
    this.plant('premature');
  }

  private find(): boolean {
    this.send({ type: 'found' }, 15);
    if (viewOf(this.walk).phase !== 'repair') return true;
    const { at } = this.walk.snapshot.context;
    const step = at === undefined ? undefined : this.terms.ground.edition.compiled.steps.get(at)?.step;
    if (step?.kind === 'finding' && this.there !== undefined && step.faults.includes(this.there)) this.there = undefined;
    if (this.leavesEarly && this.terms.ground.edition.compiled.recheck) this.plant('not-rechecked');
    this.send({ type: 'repaired', done: true }, 600 * this.about(0.3));
    return true;
  }

  private putBack({ putBack }: WalkView): boolean {
    for (const { key } of putBack) if (this.tried({ type: 'put-back', item: key }, 30)) return true;
    throw new Error(`nothing can be put back of ${putBack.map(({ key }) => key).join()}`);
  }

  private recheck(view: WalkView): boolean {
    if (this.leavesEarly) return false;
    for (const { setting, state } of view.unmet) this.send({ type: 'did', does: `turn ${setting} ${state}` }, 30);
    const { recheck, steps } = this.terms.ground.edition.compiled;
    const step = recheck && steps.get(recheck.key);
    const shown = step && this.terms.ground.at(step, this.there, this.walk.snapshot.context.circuit);
    if (!shown) return this.send({ type: 'rechecked', saw: recheck?.passes ?? '' }, 120);
    return this.send(shown.typed === undefined ? { type: 'rechecked', saw: shown.on ?? '' } : { type: 'rechecked', typed: shown.typed }, 120);
  }

  /** The next line is one of these. Where the habit is left, so is its line. */
  private plant(code: PlantedCode): void {
    this.planted.push({ code, seq: this.lines.length });
  }

  private send(event: WalkEvent, seconds: number, isPause = false): true {
    if (this.tried(event, seconds, isPause)) return true;
    throw new Error(`${this.terms.ground.edition.compiled.root.name}: ${JSON.stringify(event)} is refused at ${this.walk.snapshot.context.at}`);
  }

  private tried(event: WalkEvent, seconds: number, isPause = false): boolean {
    const clock = this.clock + Math.round(seconds * 1000);
    const taken = takeEvent(this.walk, event, { time: new Date(clock).toISOString(), mono: clock - this.terms.start });
    if (!taken.ok) return false;
    if (!isPause) this.minutes += (clock - this.clock) / 60_000;
    this.clock = clock;
    this.walk = taken.value.walk;
    this.lines.push(taken.value.line);
    return true;
  }

  private chance(share: number): boolean {
    return share > 0 && this.terms.random() < share;
  }

  /** About 1, log-normal. */
  private about(spread: number): number {
    const [a, b] = [this.terms.random(), this.terms.random()];
    return Math.exp(spread * Math.sqrt(-2 * Math.log(1 - a)) * Math.cos(2 * Math.PI * b));
  }
}
