import { quantityKind, showQuantity } from '../quantity/index.ts';
import { type Step, showAction, showHold } from '../tree/index.ts';
import { answersOf, putBackText, type Scale, viewOf, type Walk, type WalkView } from '../walk/index.ts';
import { proseText } from './prose-text.ts';

/** What a step asks for, in one line. */
export function taskLine(step: Step): string {
  switch (step.kind) {
    case 'reading': {
      const place = step.across ? `red lead on ${step.across[0]}, black on ${step.across[1]}` : (step.at ?? '');
      const input = step.input === 'low' ? ', low-impedance input' : '';
      return `${quantityKind(step.takes).meter}${input}: ${place}`;
    }
    case 'look':
      return step.at === undefined ? 'Look' : `Look at ${step.at}`;
    case 'act':
      return step.does.length === 0 ? 'Do what the step says' : step.does.map(showAction).join(', ');
    case 'ask':
      return 'Tell';
    case 'finding':
      return step.faults.length === 0 ? 'Nothing wrong found' : 'Found';
    case 'handoff':
      return `Stop here and hand over to ${step.to}`;
  }
}

export function scaleLines(scale: Scale, takes: Parameters<typeof showQuantity>[1]): readonly string[] {
  return scale.bands.map(({ on, low, high, leadsTo }) => {
    const show = (si: number): string => showQuantity(si, takes, scale.unit);
    const numbers =
      low === null && high === null
        ? ''
        : low === null
          ? `below ${show(high ?? 0)}`
          : high === null
            ? `${show(low)} and up`
            : `${show(low)} to ${show(high)}`;
    return `${(numbers || on).padEnd(24)} → ${leadsTo}`;
  });
}

function cautionLines(view: WalkView): readonly string[] {
  return view.cautions.map(
    ({ caution, mustRead, read }) =>
      `${caution.signal.toUpperCase()} (${caution.about})${mustRead && !read ? ' – to be acknowledged' : ''}: ${proseText(caution.prose).replace(/\s+/g, ' ')}`,
  );
}

/** Computed numbers, each with what it was computed from. */
function computedLines({ computed }: WalkView): readonly string[] {
  return computed.flatMap(({ shows, by, text, why, given, sources }) => [
    `${shows}: ${text ?? why}`,
    `    = ${by}${given.length === 0 ? '' : `, with ${given.map((fact) => `${fact.name} ${fact.text} (${fact.source})`).join(', ')}`}`,
    ...sources.map((source) => `    source: ${source}`),
  ]);
}

function bodyLines(walk: Walk, view: WalkView): readonly string[] {
  const { step } = view;
  switch (view.phase) {
    case 'opening':
      return [proseText(view.tree.opening.prose), ...view.facts.map((f) => `fact ${f.name} = ${f.text} (${f.source}): ${f.spec.ask}`)];
    case 'cautions':
      return [];
    case 'verdict': {
      const { verdict } = view;
      if (!verdict) return [];
      const close = verdict.tooClose
        ? [`TOO CLOSE TO CALL: within the meter's accuracy it could also be: ${verdict.judged?.reaches.join('; ')}. Read again, or go on.`]
        : [];
      return [`Verdict: ${verdict.on} → ${verdict.leadsTo}`, ...close];
    }
    case 'repair':
      return [proseText(view.finding?.repair ?? []), 'Is it repaired?'];
    case 'put-back':
      return ['Put back, and mark each:', ...view.putBack.map((item, i) => `  ${i + 1}. ${putBackText(item)}`)];
    case 'closing':
      return [`Outcome: ${view.outcome}. All is put back.`];
    case 'closed':
      return [`Closed: ${view.outcome}.`];
    default:
      if (!step) return [];
      return [
        taskLine(step),
        proseText(step.prose),
        ...computedLines(view),
        ...(view.unmet.length > 0 ? [`Not so now: ${view.unmet.map(showHold).join(', ')}`] : []),
        ...(view.scale && step.kind === 'reading'
          ? scaleLines(view.scale, step.takes)
          : answersOf(walk).map((a, i) => `  ${i + 1}. ${a.on}${a.leadsTo === '' ? '' : ` → ${a.leadsTo}`}`)),
      ];
  }
}

/** Everything that a terminal shows of where a walk stands. */
export function stepText(walk: Walk): string {
  const view = viewOf(walk);
  const title =
    view.phase === 'opening'
      ? view.tree.title
      : view.phase === 'recheck'
        ? `Try the complaint again: ${view.step?.title ?? ''}`
        : (view.step?.title ?? view.tree.title);
  const still = view.putBack.length > 0 && view.phase !== 'put-back' ? [`[${view.putBack.length} to put back]`] : [];
  return [`## ${title}`, ...cautionLines(view), ...bodyLines(walk, view), ...still].filter((line) => line !== '').join('\n');
}
