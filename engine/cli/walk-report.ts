import { putBackText, viewOf, type Walk, type WalkOutcome, type WalkPhase } from '../walk/index.ts';

/** Where a walk stands, as the command line gives it in JSON. */
export type WalkReport = {
  readonly walk: string;
  readonly edition: string;
  readonly tree: string;
  /** Id of the open step; null before the first. */
  readonly step: string | null;
  readonly state: WalkPhase;
  readonly finding: { readonly step: string; readonly title: string; readonly faults: readonly string[] } | null;
  readonly putBack: readonly string[];
  readonly outcome: WalkOutcome | null;
  readonly facts: Readonly<Record<string, string>>;
  readonly path: readonly {
    readonly step: string;
    readonly on: string | null;
    readonly typed?: string;
    readonly margin?: number | null;
    readonly tooClose?: boolean;
  }[];
  readonly events: number;
};

export function walkReport(walk: Walk): WalkReport {
  const view = viewOf(walk);
  const at = walk.snapshot.context.at?.split('/')[1];
  return {
    walk: walk.id,
    edition: walk.edition.hash,
    tree: view.tree.name,
    step: view.step?.id ?? null,
    state: view.phase,
    finding: view.finding && at !== undefined ? { step: at, title: view.finding.title, faults: view.finding.faults } : null,
    putBack: view.putBack.map(putBackText),
    outcome: view.outcome ?? null,
    facts: Object.fromEntries(view.facts.map((fact) => [fact.name, fact.text])),
    path: view.path.map(({ step, on, typed, judged }) => ({
      step,
      on: on ?? null,
      ...(typed !== undefined && { typed }),
      ...(judged && { margin: judged.margin, tooClose: judged.reaches.length > 0 }),
    })),
    events: walk.length,
  };
}
