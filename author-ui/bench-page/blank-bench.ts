import { stringify } from 'yaml';

/** A bench to begin with: a supply, a transformer and a load on it. It has no problems; everything in it is there to be replaced. */
export const blankBench = (title: string): string => `${stringify({ title }, { lineWidth: 0 })}terminals: [L1, N, R, C]
settings: # the first state is how the tech finds it
  main-power: [on, off]
parts:
  mains: { kind: source, between: [L1, N], volts: 120 V, ohms: 0.3 ohm, when: main-power is on }
  neutral-bond: { kind: wire, between: [N, ground], gauge: 12 AWG, length: 60 ft }
  xfmr: { kind: transformer, primary: [L1, N], secondary: [R, C], rated: 120 V to 24 V, va: 40 VA, no-load: 27 V }
  control: { kind: load, between: [R, C], ohms: 600 ohm }
signs:
  control-lit: volts(R, C) above 15 V
faults:
  secondary-open: { part: xfmr, becomes: secondary-open, weight: 1, says: The secondary of the transformer is open }
`;
