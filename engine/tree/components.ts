import type { StepKind } from './tree.ts';

/** Where a component may stand: it says what a step takes, or it is a part of a step (a caution also of the opening). */
export type ComponentSpec = {
  readonly stands: 'task' | 'part' | 'part-or-opening';
  readonly holds: 'nothing' | 'prose' | 'ways';
  /** In the order that they are written in. */
  readonly attributes: readonly string[];
};

/** Every component of the language. */
export const COMPONENTS = {
  Reading: { stands: 'task', holds: 'nothing', attributes: ['takes', 'across', 'at', 'input', 'unit', 'while', 'sets', 'proves', 'minutes', 'id'] },
  Look: { stands: 'task', holds: 'nothing', attributes: ['at', 'sign', 'while', 'minutes', 'id'] },
  Act: { stands: 'task', holds: 'nothing', attributes: ['does', 'while', 'minutes', 'id'] },
  Ask: { stands: 'task', holds: 'nothing', attributes: ['fact', 'while', 'minutes', 'id'] },
  Finding: { stands: 'task', holds: 'nothing', attributes: ['faults', 'while', 'minutes', 'id'] },
  Handoff: { stands: 'task', holds: 'nothing', attributes: ['to', 'while', 'minutes', 'id'] },
  Caution: { stands: 'part-or-opening', holds: 'prose', attributes: ['signal', 'about'] },
  Computed: { stands: 'part', holds: 'nothing', attributes: ['shows', 'by', 'unit'] },
  Photo: { stands: 'part', holds: 'nothing', attributes: ['ask'] },
  Repair: { stands: 'part', holds: 'prose', attributes: [] },
  Next: { stands: 'part', holds: 'ways', attributes: [] },
} as const satisfies Record<string, ComponentSpec>;

export type ComponentName = keyof typeof COMPONENTS;
export type TaskName = 'Reading' | 'Look' | 'Act' | 'Ask' | 'Finding' | 'Handoff';

export const COMPONENT_NAMES = Object.keys(COMPONENTS) as readonly ComponentName[];

export const isComponent = (name: string): name is ComponentName => Object.hasOwn(COMPONENTS, name);

export const TASK_KINDS: Readonly<Record<TaskName, StepKind>> = {
  Reading: 'reading',
  Look: 'look',
  Act: 'act',
  Ask: 'ask',
  Finding: 'finding',
  Handoff: 'handoff',
};

export const isTask = (name: ComponentName): name is TaskName => COMPONENTS[name].stands === 'task';

export const taskName = (kind: StepKind): TaskName => (Object.keys(TASK_KINDS) as TaskName[]).find((name) => TASK_KINDS[name] === kind) ?? 'Act';

/** The usual time of a step that names none. */
export const usualMinutes = (kind: StepKind): number => (kind === 'finding' || kind === 'handoff' ? 0 : 1);
