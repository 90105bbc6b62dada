import { type QuantityKindName, quantityKind } from '../../quantity/index.ts';
import type { LookStep, ReadingStep } from '../../tree/index.ts';

/** Something that a tech can find out without changing anything: one reading, or one look at a sign. */
export type Probe =
  | {
      readonly kind: 'reading';
      readonly takes: QuantityKindName;
      /** Red lead, black lead. */
      readonly across?: readonly [string, string];
      readonly at?: string;
      readonly input?: 'low';
    }
  | { readonly kind: 'look'; readonly sign: string };

/** What a step of a tree finds out; undefined where a bench could not tell it. */
export function probeOf(step: ReadingStep | LookStep): Probe | undefined {
  if (step.kind === 'look') return step.sign === undefined ? undefined : { kind: 'look', sign: step.sign };
  const { takes, across, at, input } = step;
  if (across) return { kind: 'reading', takes, across, ...(input && { input }) };
  return at === undefined ? undefined : { kind: 'reading', takes, at };
}

/** Equal for probes that find out the same: an AC reading has no direction. */
export function probeKey(probe: Probe): string {
  if (probe.kind === 'look') return `look ${probe.sign}`;
  const { takes, across, at, input } = probe;
  const points = across === undefined ? `at ${at ?? ''}` : (takes === 'dc-voltage' ? across : [...across].sort()).join('~');
  return `${takes}${input === 'low' ? ' low' : ''} ${points}`;
}

/** A probe for people: `AC volts R to C`, `resistance coil-hot to V2`, `look: valve clicks`. */
export function probeWords(probe: Probe): string {
  if (probe.kind === 'look') return `look: ${probe.sign.replaceAll('-', ' ')}`;
  const label = quantityKind(probe.takes).label;
  const place = probe.across ? `${probe.across[0]} to ${probe.across[1]}` : `at ${(probe.at ?? '').replaceAll('-', ' ')}`;
  return `${label} ${place}${probe.input === 'low' ? ', low-impedance input' : ''}`;
}
