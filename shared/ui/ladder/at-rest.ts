import type { Bench } from '../../../engine/bench/index.ts';
import { type Condition, type Formula, readCondition } from '../../../engine/formula/index.ts';

/**
 * Whether a contact is closed with nothing powered, nothing calling and every mechanical part as it should be: the state that its symbol is
 * drawn in (IEC 61082-1: in diagrams, relays are shown at rest; from memory).
 */
export function closedAtRest(bench: Bench, condition: string): boolean {
  // A sign or contact may name another; a chain that comes back to itself is taken as not holding.
  const asking = new Set<string>();
  const holds = (text: string): boolean => {
    if (asking.has(text)) return false;
    asking.add(text);
    const read = readCondition(text);
    const answer = read.ok && isTrue(read.value);
    asking.delete(text);
    return answer;
  };
  const isTrue = (term: Condition): boolean => {
    switch (term.op) {
      case 'and':
        return term.terms.every(isTrue);
      case 'or':
        return term.terms.some(isTrue);
      case 'not':
        return !isTrue(term.term);
      case 'is':
        return stateOf(term.name) === term.state;
      // Everything measured is at zero.
      case 'above':
        return isMeasured(term.right) && !isMeasured(term.left);
      case 'below':
        return isMeasured(term.left) && !isMeasured(term.right);
    }
  };
  const stateOf = (name: string): string | undefined => {
    const states = bench.settings[name];
    if (states) return states.includes('off') ? 'off' : states[0];
    const sign = bench.signs[name];
    if (sign !== undefined) return holds(sign) ? 'yes' : 'no';
    const part = bench.parts[name];
    switch (part?.kind) {
      case 'state':
        return part.is;
      case 'sequence':
        return Object.keys(part.stages)[0];
      case 'contact':
      case 'switch':
      case 'limit':
        return holds(part['closed-when']) ? 'closed' : 'open';
      case 'coil':
        return 'dropped-out';
      case 'fuse':
        return 'good';
      case 'flame':
        return 'out';
      case 'load':
        return 'off';
      case 'source':
      case 'dc-source':
        return 'dead';
      default:
        return undefined;
    }
  };
  return holds(condition);
}

const MEASURED: readonly string[] = ['volts', 'dc-volts', 'amps', 'dc-amps'];

function isMeasured(formula: Formula): boolean {
  switch (formula.op) {
    case 'literal':
    case 'name':
      return false;
    case 'call':
      return MEASURED.includes(formula.name);
    case 'negate':
    case 'percent-of':
      return isMeasured(formula.of);
    default:
      return isMeasured(formula.left) || isMeasured(formula.right);
  }
}
