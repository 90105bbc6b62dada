import { quantityKind } from '../../engine/quantity/index.ts';
import {
  contradictionWords,
  type Diagnosis,
  type NextReading,
  outcomeWords,
  probeWords,
  type Suspect,
  type Suspects,
  suspectsOf,
  type Trail,
  trailAfter,
  WalkAdvisor,
} from '../../engine/suspects/index.ts';
import {
  beginWalk,
  type CompiledStep,
  type Edition,
  stepKey,
  takeEvent,
  viewOf,
  type Walk,
  type WalkableEdition,
  type WalkLine,
  walkableEdition,
} from '../../engine/walk/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import type { AdviceReport, Destination, ShownSuspect, Suggestion, SuspectsReport, Way } from './suspects-report.ts';

// What has less than this share of the likeliest waits until something speaks for it again; the engine's advice leaves it out by the same measure.
const POSSIBLE_SHARE = 0.02;

// Of a wiring, below which nobody has to be told of it.
const LEAST_WIRING = 0.01;

const GIVE = 6;

type Answers = { readonly of: string; report?: SuspectsReport; advice?: AdviceReport };

/** Reads the log of one walk after the other entry, and says what it leaves possible and what to find out next. Keeps what it has solved. */
export class SuspectsReader {
  readonly #edition: WalkableEdition;
  readonly #advisor: WalkAdvisor;
  #walk: Walk;
  #trail: Trail = [];
  #kept: Answers | undefined;

  constructor(edition: Edition) {
    this.#edition = walkableEdition(edition);
    this.#advisor = new WalkAdvisor(this.#edition.compiled);
    this.#walk = beginWalk(this.#edition, '');
  }

  /** Takes a log up to its end: only the lines that are new where it goes on from the one before, else all of it. */
  take(id: string, lines: readonly WalkLine[]): void {
    const { length, head } = this.#walk;
    const goesOn = this.#walk.id === id && (length === 0 || lines[length - 1]?.hash === head);
    if (!goesOn) {
      this.#walk = beginWalk(this.#edition, id);
      this.#trail = [];
    }
    for (const { event, time, mono } of lines.slice(this.#walk.length)) {
      const taken = takeEvent(this.#walk, event, { time, mono });
      if (!taken.ok) return;
      this.#trail = trailAfter(this.#trail, this.#walk.snapshot.context, taken.value.walk.snapshot.context);
      this.#walk = taken.value.walk;
    }
  }

  suspects(): SuspectsReport {
    const kept = this.#answers();
    kept.report ??= this.#suspects();
    return kept.report;
  }

  advice(): AdviceReport {
    const kept = this.#answers();
    kept.advice ??= this.#advice();
    return kept.advice;
  }

  /** What was answered already of the walk as it stands: a caution read, a note or a pause changes nothing of it. */
  #answers(): Answers {
    const { at, facts, circuit, path, verdict, excluded, rechecks } = this.#walk.snapshot.context;
    const of = JSON.stringify([this.#walk.id, at, facts, circuit, path, verdict, excluded, rechecks]);
    if (this.#kept?.of !== of) this.#kept = { of };
    return this.#kept;
  }

  #suspects(): SuspectsReport {
    const diagnosis = this.#advisor.diagnose(this.#walk, this.#trail);
    return shownSuspects(suspectsOf(diagnosis), diagnosis);
  }

  #advice(): AdviceReport {
    const { next, finding } = this.#advisor.advise(this.#walk, this.#trail, { give: GIVE });
    return {
      suggestions: next.readings.map((reading) => suggestionOf(reading, this.#walk)),
      method: next.method,
      left: next.left,
      finding: finding && {
        to: {
          tree: finding.tree,
          step: finding.step.id,
          title: finding.step.title,
          putBack: [],
          way: wayTo(this.#walk, stepKey(finding.tree, finding.step.id)),
        },
        faults: finding.faults,
        probability: finding.probability,
      },
    };
  }
}

function shownSuspects({ faults, ...suspects }: Suspects, { benches, evidence }: Diagnosis): SuspectsReport {
  const wirings = Object.entries(suspects.wirings)
    .map(([bench, probability]) => ({ bench, probability }))
    .filter(({ probability }) => probability >= LEAST_WIRING)
    .sort((a, b) => b.probability - a.probability);
  const shown = ({ fault, says, probability, benches: having }: Suspect): ShownSuspect => {
    const own = wirings.filter(({ bench }) => (having[bench] ?? 0) > 0).map(({ bench }) => bench);
    return { fault, says, probability, wirings: own.length < wirings.length ? own : [] };
  };
  const least = POSSIBLE_SHARE * (faults[0]?.probability ?? 0);
  return {
    benches: benches.size,
    possible: faults.filter(({ probability }) => probability >= least && probability > 0).map(shown),
    ruledOut: faults.filter(({ probability }) => probability < least || probability === 0).map(shown),
    nothingWrong: suspects.nothingWrong,
    unknown: suspects.unknown,
    excluded: suspects.excluded,
    contradictions: suspects.contradictions.map(contradictionWords),
    wirings,
    found: evidence.length,
  };
}

function suggestionOf({ candidate, jump, setUp, minutes, expected, reason, shows }: NextReading, walk: Walk): Suggestion {
  const { probe, stance, reached } = candidate;
  const words = probeWords(probe);
  return {
    key: `${reached?.step.key ?? words} ${setUp.length} ${stance ? [...stance.jumpers, ...stance.lifted].join() : ''}`,
    title: reached?.step.step.title ?? words,
    kind: probe.kind,
    task: probe.kind === 'look' ? plainWords(probe.sign) : quantityKind(probe.takes).meter + (probe.input === 'low' ? ', low-impedance input' : ''),
    across: probe.kind === 'reading' && probe.across ? [probe.across[0], probe.across[1]] : undefined,
    stance: stance && { settings: stance.settings, jumpers: stance.jumpers, lifted: stance.lifted },
    setUp,
    minutes,
    expected,
    reason,
    shows: shownOutcomes(candidate, shows),
    to: jump && destination(jump.step, jump.putBack, jump.onTheWay, reached?.step.key, walk),
  };
}

// Millivolts beside volts are nothing to a tech: what is under this share of the most that a reading shows is 0.
const NOTHING_SHARE = 0.02;

/** What a candidate could show, likeliest first. */
function shownOutcomes({ probe }: NextReading['candidate'], shows: NextReading['shows']): Suggestion['shows'] {
  const most = Math.max(0, ...shows.flatMap(({ high }) => (Number.isFinite(high) ? [Math.abs(high)] : [])));
  const plain = (si: number): number => (Math.abs(si) < NOTHING_SHARE * most ? 0 : si);
  return shows
    .map(({ reading, low, high, faults, probability }) => ({
      reading: probe.kind === 'reading' && Number.isFinite(high) ? outcomeWords(probe, { low: plain(low), high: plain(high), open: false }) : reading,
      leaves: faults,
      probability,
    }))
    .sort((a, b) => b.probability - a.probability);
}

function destination(step: CompiledStep, putBack: Destination['putBack'], onTheWay: boolean, goal: string | undefined, walk: Walk): Destination {
  const next = wayTo(walk, step.key);
  const way: Way = next === 'jump' && onTheWay ? 'under-way' : next === 'here' && goal !== step.key ? 'under-way' : next;
  return { tree: step.tree.name, step: step.step.id, title: step.step.title, way, putBack };
}

/** Whether a walk stands on a step, comes to it next as it is, or would have to jump. */
function wayTo(walk: Walk, key: string): Way {
  const { at } = walk.snapshot.context;
  if (at === key) return 'here';
  const open = at === undefined ? undefined : walk.edition.compiled.steps.get(at);
  const on = viewOf(walk).verdict?.on ?? (open?.step.kind === 'act' ? 'done' : undefined);
  return on !== undefined && open?.leadsTo.get(on) === key ? 'next' : 'jump';
}
