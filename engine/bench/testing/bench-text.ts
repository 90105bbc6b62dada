import type { Bench } from '../bench.ts';
import { prepare } from '../prepare.ts';
import { readBench } from '../read-bench.ts';
import { asFound, type Situation } from '../situation.ts';
import type { Solved } from '../solution.ts';
import { solve } from '../solve.ts';

/** A transformer, a dry contact, a valve on 40 ft of cable: the small circuit of most tests. */
export const VALVE = `
title: A valve on a dry contact
terminals: [L1, N, R, C, K1, K2, V1]
settings:
  main-power: [on, off]
  call: [on, off]
facts:
  line-volts: { quantity: ac-voltage, ask: Line voltage, usual: 120 V, from: 108 V, to: 126 V }
  run: { quantity: length, ask: Cable to the valve, usual: 40 ft, from: 10 ft, to: 150 ft }
parts:
  mains: { kind: source, between: [LINE, N], volts: line-volts, ohms: 0.3 ohm }
  bond: { kind: wire, between: [N, ground], gauge: 12 AWG, length: 50 ft }
  disconnect: { kind: switch, between: [LINE, L1], closed-when: main-power is on }
  xfmr: { kind: transformer, primary: [L1, N], secondary: [R, C], rated: 120 V to 24 V, va: 40 VA, no-load: 27 V }
  feed: { kind: wire, between: [R, K1], gauge: 18 AWG, length: 1 ft }
  dry-contact: { kind: contact, between: [K1, K2], closed-when: call is on and volts(R, C) above 18 V }
  valve-run: { kind: wire, between: [K2, V1], gauge: 18 AWG, length: run, stray: 30 pF/ft to R }
  valve-coil: { kind: coil, between: [V1, C], rated: 24 V, va: 10 VA, resistance: 30 ohm, lead: coil-hot on V1 }
  control: { kind: load, between: [R, C], ohms: 600 ohm }
  cock: { kind: state, is: open }
signs:
  display-lit: volts(R, C) above 18 V
  water-runs: valve-coil is pulled-in and cock is open
faults:
  coil-open: { part: valve-coil, becomes: open }
  contact-stuck: { part: dry-contact, becomes: stuck-open }
  cock-shut: { part: cock, becomes: shut }
  disconnect-welded: { part: disconnect, becomes: stuck-closed }
`;

/** Reads a bench that must have no errors. */
export function soundBench(text: string): Bench {
  const { bench, problems } = readBench(text, { file: 'test.bench.yaml' });
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (!bench || errors.length > 0) throw new Error(errors.map(({ line, code, message }) => `${line} ${code}: ${message}`).join('\n'));
  return bench;
}

/** Reads a bench of the right form, whatever it says: for benches that are meant to chatter. */
export function anyBench(text: string): Bench {
  const { bench, problems } = readBench(text, { file: 'test.bench.yaml' });
  if (!bench) throw new Error(problems.map(({ line, code, message }) => `${line} ${code}: ${message}`).join('\n'));
  return bench;
}

/** Solves a situation of a bench that must have a solution; as found where none is given. */
export function solvedBench(bench: Bench, edit: (situation: Situation) => Situation = (situation) => situation, from?: Solved): Solved {
  const solution = solve(prepare(bench), edit(asFound(bench)), from);
  if (!solution.ok) throw new Error(JSON.stringify(solution));
  return solution;
}
