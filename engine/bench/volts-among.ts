import { type Circuit, pointNumber } from './circuit.ts';
import { INPUT_OHMS, LOW_INPUT_OHMS } from './meter.ts';
import { emptyField, type Field, LEAK_OHMS, type Line, solveField } from './network.ts';
import type { Solved } from './solution.ts';

/** What the two volts inputs of a meter would show between every two of some points, V: [red * points + black]. */
export type VoltsAmong = { readonly plain: Float64Array; readonly low: Float64Array };

/**
 * Volts between every two points at once: one solution a point instead of one a pair (Thévenin: V = Voc·Zm / (Zm + Zth), Zth from unit currents). The
 * circuit's states are held as they are; where a meter's load would move a contact, only `measure` tells, so what is decided on one of these is
 * read again with it. AC volts are magnitudes, DC volts signed. NaN where a point is not there or has no answer.
 */
export function voltsAmong(solved: Solved, points: readonly string[], line: Line = 'ac'): VoltsAmong {
  const { circuit, states, method } = solved;
  const field = line === 'ac' ? solved.ac : solved.dc;
  const count = points.length;
  const nodes = Int32Array.from(points, (point) => nodeOf(circuit, point));
  const plain = new Float64Array(count * count);
  const low = new Float64Array(count * count);
  if (line === 'dc' && !circuit.hasDc) return { plain, low };
  const islandAt = (node: number): number => field.island[node < 0 ? circuit.size : node] ?? -1;
  // The first point of each island takes the current of the others out.
  const firsts = new Map<number, number>();
  for (const node of nodes) if (node > MISSING && !firsts.has(islandAt(node))) firsts.set(islandAt(node), node);
  const answers = Array.from(nodes, (node): Field | undefined => {
    const outOf = firsts.get(islandAt(node));
    if (node <= MISSING || outOf === undefined || outOf === node) return undefined;
    const test = emptyField(circuit.size);
    return solveField(circuit, states, line, method, test, { into: node, outOf }) < 0 ? test : undefined;
  });
  const at = (values: Float64Array, node: number): number => (node < 0 ? 0 : (values[node] ?? 0));
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < count; j += 1) {
      if (i === j) continue;
      const a = nodes[i] ?? MISSING;
      const b = nodes[j] ?? MISSING;
      const cell = i * count + j;
      if (a <= MISSING || b <= MISSING) {
        plain[cell] = Number.NaN;
        low[cell] = Number.NaN;
        continue;
      }
      const re = at(field.re, a) - at(field.re, b);
      const im = at(field.im, a) - at(field.im, b);
      const volts = line === 'ac' ? Math.hypot(re, im) : re;
      if (islandAt(a) !== islandAt(b)) {
        const apart = leak(field, circuit.size, islandAt(a)) + leak(field, circuit.size, islandAt(b));
        plain[cell] = (volts * INPUT_OHMS) / (INPUT_OHMS + apart);
        low[cell] = (volts * LOW_INPUT_OHMS) / (LOW_INPUT_OHMS + apart);
        continue;
      }
      let zr = 0;
      let zi = 0;
      const [one, other] = [answers[i], answers[j]];
      if (one) {
        zr += at(one.re, a) - at(one.re, b);
        zi += at(one.im, a) - at(one.im, b);
      }
      if (other) {
        zr -= at(other.re, a) - at(other.re, b);
        zi -= at(other.im, a) - at(other.im, b);
      }
      plain[cell] = (volts * INPUT_OHMS) / Math.hypot(INPUT_OHMS + zr, zi);
      low[cell] = (volts * LOW_INPUT_OHMS) / Math.hypot(LOW_INPUT_OHMS + zr, zi);
    }
  }
  return { plain, low };
}

const MISSING = -2;

function nodeOf(circuit: Circuit, point: string): number {
  const { index } = circuit.prepared;
  const known = index.nodeNumber.has(point) || index.leads.some(({ name }) => name === point);
  return known ? pointNumber(circuit.prepared, point, circuit.lifted) : MISSING;
}

const leak = ({ island }: Field, size: number, root: number): number =>
  root === island[size] ? 0 : LEAK_OHMS / island.filter((each) => each === root).length;
