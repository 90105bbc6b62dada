import { type Band, bandEdges, compute, type Formula, showFormula } from '../formula/index.ts';
import { quantityKind } from '../quantity/index.ts';
import type { Gauge } from '../walk/index.ts';

const VALUE = '_event.data.value';

/** A string as ECMAScript writes it, with nothing in it that ends a line of the script. */
export const quoted = (text: string): string => JSON.stringify(text).replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');

const number = (value: number): string => (Number.isFinite(value) ? (Object.is(value, -0) ? '0' : String(value)) : 'NaN');

/** A formula as an ECMAScript expression over `facts` and, for what only the trade's functions give, `numbers`. */
function expression(formula: Formula): string {
  switch (formula.op) {
    case 'literal':
      return number(formula.si);
    case 'name':
      return `facts[${quoted(formula.name)}]`;
    case 'call':
      return `numbers[${quoted(showFormula(formula))}]`;
    case 'negate':
      return `(-${expression(formula.of)})`;
    case 'percent-of':
      return `(${number(Number(formula.percent))} * ${expression(formula.of)} / 100)`;
    default:
      return `(${expression(formula.left)} ${formula.op} ${expression(formula.right)})`;
  }
}

function calls(formula: Formula): readonly Formula[] {
  switch (formula.op) {
    case 'literal':
    case 'name':
      return [];
    case 'call':
      return [formula];
    case 'negate':
    case 'percent-of':
      return calls(formula.of);
    default:
      return [...calls(formula.left), ...calls(formula.right)];
  }
}

const edgesOf = (band: Band): readonly Formula[] => Object.values(bandEdges(band));

/** What the trade's functions in a gauge's bands give at these facts, by their text; null where there is no answer. */
export function gaugeNumbers(gauge: Gauge, value: (name: string) => number | undefined): Record<string, number | null> {
  const found: Record<string, number | null> = {};
  for (const { band } of gauge.bands) {
    for (const call of edgesOf(band).flatMap(calls)) {
      const answer = compute(call, { value, functions: gauge.functions });
      found[showFormula(call)] = answer.ok ? answer.value : null;
    }
  }
  return found;
}

/**
 * The condition of each way of a gauge on the value of an event, in the order to try them: bands with edges, `open`, then `otherwise`. A band holds
 * its lower edge and not its upper. No band is taken by what a meter cannot show, nor while an edge has no number.
 */
export function gaugeConditions(gauge: Gauge): readonly { readonly on: string; readonly condition: string }[] {
  const { floor, open } = quantityKind(gauge.step.takes);
  const edges = gauge.bands.flatMap(({ band }) => edgesOf(band)).map(expression);
  const isNumber = ['typeof _event.data.value === "number"', ...(Number.isFinite(floor) ? [`${VALUE} >= ${number(floor)}`] : [])];
  const known = [...new Set(edges)].map((edge) => `isFinite(${edge})`);
  const isOpen = open ? [`${VALUE} === "open"`] : ['false'];
  const ranged = gauge.bands.flatMap(({ way, band }) => {
    if (band.kind === 'open' || band.kind === 'otherwise') return [];
    const { low, high } = bandEdges(band);
    const within = [...(low ? [`${VALUE} >= ${expression(low)}`] : []), ...(high ? [`${VALUE} < ${expression(high)}`] : [])];
    return [{ on: way.on, condition: [...isNumber, ...known, ...within].join(' && ') }];
  });
  const onOpen = gauge.bands
    .filter(({ band }) => band.kind === 'open')
    .map(({ way }) => ({ on: way.on, condition: [...isOpen, ...known].join(' && ') }));
  const rest = gauge.bands
    .filter(({ band }) => band.kind === 'otherwise')
    .map(({ way }) => ({ on: way.on, condition: [`((${isNumber.join(' && ')}) || ${isOpen.join('')})`, ...known].join(' && ') }));
  return [...ranged, ...onOpen, ...rest];
}
