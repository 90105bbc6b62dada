import { type Bench, usualFacts } from '../../../engine/bench/index.ts';
import { compute, readFormula } from '../../../engine/formula/index.ts';
import { type QuantityKindName, showQuantity } from '../../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../../engine/trade/index.ts';
import type { Edge } from './circuit-edges.ts';
import { UNBROKEN } from './text-size.ts';

/** A part's label, or its name with spaces. */
export const partName = (part: string, spec: Edge['spec']): string => ('label' in spec ? spec.label : undefined) ?? part.replaceAll('-', ' ');

/** Unit words as they are printed on equipment. */
export const partValue = (text: string): string =>
  text
    .replace(/(\d)\s*([kM]?)ohm\b/g, '$1 $2Ω')
    .replace(/\s+/g, ' ')
    .replace(/(\d) (?=[a-zA-Zµ%Ω])(?!to\b)/g, `$1${UNBROKEN}`);

/** The one value of a part that a tech would look for beside its symbol, for this bench's usual facts; none where it has no such value. */
export function valuesIn(bench: Bench): (edge: Edge) => string | undefined {
  const facts = usualFacts(bench);
  const shown = (text: string, kind: QuantityKindName): string | undefined => {
    const formula = readFormula(text);
    if (!formula.ok) return undefined;
    if (formula.value.op === 'literal') return text.trim();
    const value = compute(formula.value, { value: (name) => facts[name], functions: TRADE_FUNCTIONS });
    return value.ok ? showQuantity(value.value, kind) : undefined;
  };
  return ({ spec, piece }) => {
    switch (spec.kind) {
      case 'source':
        return shown(spec.volts, 'ac-voltage');
      case 'dc-source':
        return shown(spec.volts, 'dc-voltage');
      case 'transformer':
        return piece === 'secondary' ? spec.rated : undefined;
      case 'fuse':
        return shown(spec.rating, 'ac-current');
      case 'coil':
        return shown(spec.rated, 'ac-voltage');
      case 'resistor':
        return shown(spec.ohms, 'resistance');
      case 'thermistor':
        return spec.ohms === undefined ? undefined : shown(spec.ohms, 'resistance');
      default:
        return undefined;
    }
  };
}
