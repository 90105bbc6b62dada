import { attributePlace, keyPlace, type Problem, type StepPlaces, type TreePlaces, type TreeProblem, worded } from '../tree/index.ts';
import type { CompiledEdition, CompiledStep } from '../walk/index.ts';
import type { ProvedMiss, TreeProof } from './prove-tree.ts';
import type { SafetyFinding } from './safety-proof.ts';

/** Where the pieces of each tree of an edition stand in its file, by the tree's name. */
export type PlacesByTree = Readonly<Record<string, TreePlaces>>;

type Located = { readonly file: string; readonly places: StepPlaces; readonly start: TreePlaces };

function located(step: CompiledStep, places: PlacesByTree): Located | undefined {
  const tree = Object.hasOwn(places, step.tree.name) ? places[step.tree.name] : undefined;
  const at = tree?.steps[step.tree.steps.findIndex((s) => s.id === step.step.id)];
  return tree && at && { file: tree.file, places: at, start: tree };
}

/** The safety rules' findings as problems of the files. */
export function safetyProblems(findings: readonly SafetyFinding[], places: PlacesByTree): readonly Problem[] {
  return findings.flatMap(({ step, path, found }) => {
    const at = located(step, places);
    if (!at) return [];
    const { title } = step.step;
    const common = { step: step.step.id, path, place: at.places.task };
    return [worded(safetyProblem(found, title, common, at.places), at.file)];
  });
}

function safetyProblem(
  found: SafetyFinding['found'],
  title: string,
  common: Pick<TreeProblem, 'step' | 'path' | 'place'>,
  places: StepPlaces,
): TreeProblem {
  switch (found.code) {
    case 'resistance-while-live':
      return { ...common, place: attributePlace(places, 'across'), code: found.code, title, points: found.points, source: found.source };
    case 'touched-while-live':
      return {
        ...common,
        place: attributePlace(places, 'does'),
        code: found.code,
        title,
        action: found.action,
        point: found.point,
        source: found.source,
      };
    case 'not-proved-dead':
      return { ...common, code: found.code, title, points: found.points, source: found.source, when: found.when };
    case 'meter-not-proved':
      return { ...common, code: found.code, title, when: found.when };
    case 'safety-bypassed':
      return { ...common, place: attributePlace(places, 'does'), code: found.code, title, part: found.part, action: found.action };
    case 'caution-too-mild':
      return { ...common, code: found.code, title, about: found.about, needs: found.needs, has: found.has };
    case 'left-in-place':
      return { ...common, place: places.heading, code: found.code, title, left: found.left, why: found.why };
  }
}

/** What the proof found wrong, as problems of the files. */
export function proofProblems(edition: CompiledEdition, proof: TreeProof, places: PlacesByTree): readonly Problem[] {
  const root = places[edition.root.name];
  if (!root) return [];
  const misses = proof.misses.map((miss) => missProblem(miss, places, root));
  const wasted = proof.wasted.flatMap(({ key, on }) => {
    const step = edition.steps.get(key);
    const at = step && located(step, places);
    if (!step || !at || step.tree !== edition.root) return [];
    return [worded({ code: 'wasted-step', title: step.step.title, on, step: step.step.id, place: at.places.task }, at.file)];
  });
  return [...safetyProblems(proof.safety, places), ...misses, ...wasted];
}

function missProblem({ bench, fault, end, path, reason }: ProvedMiss, places: PlacesByTree, root: TreePlaces): Problem {
  if (reason) {
    const at = located(reason.at.step, places);
    const title = reason.at.step.step.title;
    const place = at?.places.task ?? root.start;
    const common = { step: reason.at.step.step.id, place, path, title, bench, fault };
    const file = at?.file ?? root.file;
    switch (reason.code) {
      case 'fooled-by-stray-voltage':
        return worded({ ...common, code: reason.code, reads: reason.reads, truly: reason.truly }, file);
      case 'fooled-by-parallel-path':
        return worded({ ...common, code: reason.code, reads: reason.reads, truly: reason.truly, through: reason.through }, file);
      case 'too-close-to-call':
        return worded(
          {
            ...common,
            place: wayPlace(reason.at.step, reason.band, at?.places) ?? place,
            code: reason.code,
            band: reason.band,
            reads: reason.reads,
            edge: reason.edge,
          },
          file,
        );
    }
  }
  const at = located(end.at, places);
  const place = at?.places.heading ?? keyPlace(root, 'benches');
  const common = { step: end.at.step.id, place, path, bench, endsAt: end.at.step.title };
  const file = at?.file ?? root.file;
  const named = end.at.step.kind === 'finding' ? end.at.step.faults : [];
  if (fault === undefined) return worded({ ...common, code: 'healthy-condemned', named }, file);
  if (named.length === 0 || end.endless) return worded({ ...common, code: 'fault-missed', fault, place: keyPlace(root, 'benches') }, root.file);
  return worded({ ...common, code: 'fault-misnamed', fault, named }, file);
}

function wayPlace(step: CompiledStep, on: string, places: StepPlaces | undefined): TreeProblem['place'] | undefined {
  const index = [...step.leadsTo.keys()].indexOf(on);
  return places?.ways[index]?.on;
}
