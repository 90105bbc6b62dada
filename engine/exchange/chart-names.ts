import type { CompiledStep } from '../walk/index.ts';

/** The namespace of what a chart says beyond SCXML: titles, cautions, bands as written. */
export const CHART_NAMESPACE = 'urn:ohmward:scxml:1';

/** State ids of a chart. They are XML names, so that they start with a letter whatever the step is called. */
export const stateOf = (key: string): string => `step.${key.replace('/', '.')}`;
export const treeState = (tree: string): string => `tree.${tree}`;

/** The states around the steps. */
export const CHART_STATES = {
  opening: 'opening',
  walking: 'walking',
  closing: 'closing',
  repair: 'closing.repair',
  putBack: 'closing.put-back',
  recheck: 'closing.recheck',
  ready: 'closing.ready',
  closed: 'closed',
} as const;

/** The events of a chart that are the same on every step. */
export const CHART_EVENTS = {
  begin: 'went-on',
  reading: 'reading.value',
  did: 'did',
  cannot: 'cannot',
  found: 'found',
  handedOff: 'handed-off',
  turn: 'turn',
  repaired: 'repaired.done',
  notRepaired: 'repaired.not',
  putBack: 'put-back',
  closed: 'closed',
} as const;

export const toldEvent = (fact: string): string => `told.${fact}`;
export const backEvent = (key: string): string => `stepped-back.${key.replace('/', '.')}`;
export const jumpEvent = (key: string): string => `jumped.${key.replace('/', '.')}`;

/** A text as one token of an event's name: letters and digits with dashes between. */
const token = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll('%', ' percent ')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'way';

/** The event named after each way on of a step: `reading.band.below-2-v`, `looked.runs`. Two that would be called the same are told apart by a number. */
export function wayEvents({ step, leadsTo }: CompiledStep): ReadonlyMap<string, string> {
  const prefix = step.kind === 'reading' ? 'reading.band' : step.kind === 'look' ? 'looked' : 'told.way';
  const taken = new Set<string>();
  const names = new Map<string, string>();
  for (const on of leadsTo.keys()) {
    const plain = `${prefix}.${token(on)}`;
    let name = plain;
    for (let n = 2; taken.has(name); n += 1) name = `${plain}-${n}`;
    taken.add(name);
    names.set(on, name);
  }
  return names;
}
