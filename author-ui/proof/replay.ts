import type { BenchCase, CaseEnd, Shown } from '../../engine/proof/index.ts';
import { showAction } from '../../engine/tree/index.ts';
import { afterWay, type CircuitState } from '../../engine/walk/index.ts';

/** One step of a replayed case: what was asked, what was shown, and how the circuit stood then. */
export type ReplayStep = {
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly kind: string;
  /** The way taken. */
  readonly on: string;
  /** The meter's display, and how far its accuracy lets it wander; other ways that this would also reach. */
  readonly reading?: { readonly shown: string; readonly others: readonly string[] };
  /** Why the bench could not tell; then every way was followed. */
  readonly untold?: NonNullable<Shown['untold']>;
  /** Points that the meter's leads stand on. */
  readonly leads?: { readonly red: string; readonly black: string };
  /** A part or place that is read without leads. */
  readonly at?: string;
  readonly does: readonly string[];
  /** As it stands while the step is looked at; after the act, where the step is one. */
  readonly circuit: CircuitState;
};

/** A case walked to its end, as plain data. */
export type Replay = {
  readonly bench: string;
  readonly fault: string | undefined;
  /** The house: facts of the bench, SI. */
  readonly facts: Readonly<Record<string, number>>;
  readonly steps: readonly ReplayStep[];
  readonly end: {
    readonly tree: string;
    readonly step: string;
    readonly title: string;
    readonly endless: boolean;
    readonly circuit: CircuitState | undefined;
  };
};

/** One case's walk, step by step, for a slider to go through. */
export function replayOf(bench: string, at: BenchCase, end: CaseEnd): Replay {
  const steps = end.path.map(({ step: compiled, circuit, on, shown }): ReplayStep => {
    const { step, tree } = compiled;
    return {
      tree: tree.name,
      step: step.id,
      title: step.title,
      kind: step.kind,
      on,
      ...(shown.reading && { reading: { shown: shown.reading.shown, others: shown.ons.filter((other) => other !== on) } }),
      ...(shown.untold && { untold: shown.untold }),
      ...(step.kind === 'reading' && step.across && { leads: { red: step.across[0], black: step.across[1] } }),
      ...(step.kind === 'reading' && step.at !== undefined && { at: step.at }),
      does: step.kind === 'act' ? step.does.map(showAction) : [],
      circuit: step.kind === 'act' ? afterWay(compiled, circuit, on) : circuit,
    };
  });
  const last = end.path.at(-1);
  return {
    bench,
    fault: at.fault,
    facts: at.facts,
    steps,
    end: {
      tree: end.at.tree.name,
      step: end.at.step.id,
      title: end.at.step.title,
      endless: end.endless,
      circuit: last && afterWay(last.step, last.circuit, last.on),
    },
  };
}
