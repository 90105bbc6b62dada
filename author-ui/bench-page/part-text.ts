import type { Bench } from '../../engine/bench/index.ts';

type Part = Bench['parts'][string];

function valueText(value: unknown): string {
  if (Array.isArray(value)) return value.map(valueText).join(' to ');
  if (typeof value === 'object' && value !== null)
    return Object.entries(value)
      .map(([name, inner]) => `${name} (${valueText(inner)})`)
      .join(', ');
  return String(value);
}

/** What a part's file says of it besides its kind and label, such as `between R to K1, gauge 18 AWG, length 0.5 ft`. */
export function partText(part: Part): string {
  return Object.entries(part)
    .filter(([name, value]) => name !== 'kind' && name !== 'label' && value !== undefined)
    .map(([name, value]) => `${name} ${valueText(value)}`)
    .join(', ');
}

/** Each fault's share of all that are met, in percent, by its weight. */
export function faultShares(faults: Bench['faults']): Readonly<Record<string, number>> {
  const all = Object.values(faults).reduce((sum, { weight }) => sum + weight, 0);
  return Object.fromEntries(Object.entries(faults).map(([name, { weight }]) => [name, (100 * weight) / all]));
}

/** `9 %`, `0.4 %`: one figure where a whole number would say nothing. */
export const shareText = (percent: number): string => `${percent >= 1 ? Math.round(percent) : percent.toPrecision(1)} %`;
