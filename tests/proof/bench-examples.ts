import { stepId } from '../../engine/tree/index.ts';
import { fences, heading, pieces } from '../tree/manual.ts';
import { SOUND } from './proving.ts';

/** An example of the manual that a bench shows to be bad or good. */
export type BenchExample = {
  readonly code: string;
  readonly kind: 'bad' | 'good';
  readonly text: string;
  readonly line: number;
  /** What a bad example is reported with besides its own code, as its mark says. */
  readonly also: readonly string[];
};

const idOf = (section: string): string => stepId(heading(section).slice(3));

/** The links of a section, and the handoff that `cannot` leads to from every step. */
const leadsTo = (section: string): readonly string[] => [...[...section.matchAll(/\]\(#([a-z0-9-]+)\)/g)].map((m) => m[1] ?? ''), 'call-for-help'];

/**
 * A piece put in its place in the sound tree: a section takes the place of the one with its heading; a new one stands before the
 * section that follows it in the piece, or last; sections that nothing leads to any more fall out.
 */
export function inSoundTree(piece: string): string {
  const whole = pieces(SOUND);
  const part = pieces(piece);
  const sections = [...whole.sections];
  for (const section of part.sections.toReversed()) {
    const known = sections.findIndex((other) => heading(other) === heading(section));
    const next = part.sections[part.sections.indexOf(section) + 1];
    const before = next === undefined ? -1 : sections.findIndex((other) => heading(other) === heading(next));
    if (known >= 0) sections[known] = section;
    else if (before >= 0) sections.splice(before, 0, section);
    else sections.push(section);
  }
  const reached = new Set<string>();
  const reach = (id: string): void => {
    if (reached.has(id)) return;
    reached.add(id);
    for (const section of sections) if (idOf(section) === id) leadsTo(section).forEach(reach);
  };
  reach(idOf(sections[0] ?? ''));
  const lost = part.sections.filter((section) => !reached.has(idOf(section)));
  if (lost.length > 0) throw new Error(`nothing leads to ${lost.map(heading).join(', ')}`);
  return [
    part.front || whole.front,
    part.opening.trim() === '' ? whole.opening : part.opening,
    ...sections.filter((section) => reached.has(idOf(section))).map((section) => `${section.trimEnd()}\n\n`),
  ].join('');
}

/** Every bad and good example marked `bench`, as a whole file. */
export const BENCH_EXAMPLES: readonly BenchExample[] = fences().flatMap(({ info, text, heading: code, line }) => {
  const match = /^mdx (bad|good) bench(?: also (.+))?$/.exec(info);
  if (!match) return [];
  return [{ code, kind: match[1] === 'bad' ? 'bad' : 'good', text, line, also: match[2]?.split(', ') ?? [] }];
});
