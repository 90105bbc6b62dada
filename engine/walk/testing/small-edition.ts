import type { Caution, Step, Tree, Way } from '../../tree/index.ts';
import type { Edition } from '../edition.ts';

// A small edition for tests: two trees, every kind of step, every kind of way on, line-voltage work, a second fault.

const say = (value: string) => [{ type: 'paragraph' as const, children: [{ type: 'text' as const, value }] }];
const caution = (signal: Caution['signal'], about: Caution['about'], text: string): Caution => ({ signal, about, prose: say(text) });
const shared = (id: string, title: string) => ({ id, title, minutes: 2, while: [], cautions: [], prose: [], photos: [] });
const to = (on: string, step: string, tree?: string): Way => ({ on, to: tree === undefined ? { step } : { tree, step } });

const LINE = caution('warning', 'line-voltage', 'Line voltage stands behind this panel. Work to local code.');

const steps: Step[] = [
  {
    kind: 'ask',
    ...shared('wiring', 'How is it wired'),
    fact: 'wiring',
    ways: [to('own', 'power'), to('shared', 'power')],
  },
  {
    kind: 'reading',
    ...shared('power', 'Power at R and C'),
    while: [{ setting: 'heat-call', state: 'on' }],
    takes: 'ac-voltage',
    across: ['R', 'C'],
    ways: [
      to('below 2 V', 'line-side', 'supply'),
      to('2 V to 75 % of coil-rated', 'weak'),
      to('75 % of coil-rated to 125 % of coil-rated', 'close-by-hand'),
      to('otherwise', 'weak'),
    ],
  },
  {
    kind: 'act',
    ...shared('close-by-hand', 'Close the circuit by hand'),
    cautions: [caution('notice', 'control-circuit', 'Jumper only the two terminals named.')],
    does: [{ do: 'jumper', from: 'K1', to: 'K2' }],
    ways: [to('done', 'water-runs')],
    cannot: { step: 'wires-out-of-reach' },
  },
  {
    kind: 'look',
    ...shared('water-runs', 'Water runs'),
    at: 'the pad',
    ways: [to('runs', 'contact-open'), to('dry', 'power-off')],
  },
  {
    kind: 'act',
    ...shared('power-off', 'Power off and meter proved'),
    cautions: [LINE],
    does: [{ do: 'turn', setting: 'main-power', state: 'off' }, { do: 'prove-meter' }],
    ways: [to('done', 'dead')],
  },
  {
    kind: 'reading',
    ...shared('dead', 'Dead at the unit'),
    while: [{ setting: 'main-power', state: 'off' }],
    cautions: [LINE, caution('caution', 'sharp-edges', 'Panel edges cut.')],
    takes: 'ac-voltage',
    across: ['L1', 'N'],
    proves: 'dead',
    ways: [to('below 2 V', 'lift'), to('above 2 V', 'still-live')],
  },
  {
    kind: 'act',
    ...shared('lift', 'Prove the meter again, lift the coil lead'),
    does: [{ do: 'prove-meter' }, { do: 'lift', lead: 'coil-hot' }],
    ways: [to('done', 'coil')],
  },
  {
    kind: 'reading',
    ...shared('coil', 'Coil resistance'),
    while: [{ setting: 'main-power', state: 'off' }],
    takes: 'resistance',
    across: ['V1', 'C'],
    ways: [to('below 5 ohm', 'coil-shorted'), to('5 ohm to 200 ohm', 'no-fault'), to('above 200 ohm', 'coil-open'), to('open', 'coil-open')],
  },
  { kind: 'finding', ...shared('coil-open', 'The valve coil is open'), faults: ['coil-open'], prose: say('OL.'), repair: say('Fit a new coil.') },
  { kind: 'finding', ...shared('coil-shorted', 'The valve coil is shorted'), faults: ['coil-shorted'], repair: say('Fit a new coil.') },
  { kind: 'finding', ...shared('contact-open', 'The contact does not close'), faults: ['contact-stuck'], repair: say('Replace the control.') },
  { kind: 'finding', ...shared('no-fault', 'Nothing wrong found'), faults: [], repair: [] },
  { kind: 'handoff', ...shared('weak', 'Weak or wrong supply'), to: 'an electrician' },
  { kind: 'handoff', ...shared('wires-out-of-reach', 'Wires out of reach'), to: 'the senior tech' },
  {
    kind: 'handoff',
    ...shared('still-live', 'Still live with power off'),
    cautions: [caution('danger', 'line-voltage', 'The circuit is live with its switch off. Keep out.')],
    to: 'an electrician',
  },
];

const dryPad: Tree = {
  name: 'dry-pad',
  title: 'No water at the pad',
  complaint: 'Heat runs and the pad stays dry.',
  benches: [],
  facts: {
    'coil-rated': { quantity: 'ac-voltage', ask: 'Coil voltage on the label', usual: '24 V', from: '20 V', to: '28 V' },
    wiring: { choices: ['own', 'shared'], ask: 'Has it its own transformer?', usual: 'own' },
  },
  settings: { 'main-power': ['on', 'off'], 'heat-call': ['on', 'off'] },
  meter: '1 % + 3 counts',
  recheck: { step: 'water-runs', passes: 'runs' },
  handoff: 'wires-out-of-reach',
  opening: { cautions: [LINE], prose: say('What this covers.') },
  steps,
};

const supply: Tree = {
  name: 'supply',
  title: 'No supply',
  complaint: 'No 24 V.',
  benches: [],
  facts: { 'line-volts': { quantity: 'ac-voltage', ask: 'Line voltage', usual: '120 V', from: '108 V', to: '126 V' } },
  settings: {},
  meter: '1 % + 3 counts',
  recheck: { step: 'line-side', passes: 'within 10 % of line-volts' },
  opening: { cautions: [], prose: [] },
  steps: [
    {
      kind: 'reading',
      ...shared('line-side', 'Line at the transformer'),
      cautions: [LINE],
      takes: 'ac-voltage',
      across: ['HUM', 'N'],
      sets: 'line-volts',
      ways: [to('below 90 V', 'no-line'), to('90 V to 140 V', 'transformer-open'), to('above 140 V', 'no-line')],
    },
    { kind: 'finding', ...shared('transformer-open', 'The transformer is open'), faults: ['transformer-open'], repair: say('Replace it.') },
    { kind: 'handoff', ...shared('no-line', 'No line voltage'), to: 'an electrician' },
  ],
};

/** A fresh copy each time, so that no test can spoil another's. */
export const smallEdition = (): Edition =>
  JSON.parse(
    JSON.stringify({ format: 'ohmward-edition/1', root: 'dry-pad', trees: { 'dry-pad': dryPad, supply }, benches: {}, figures: {} }),
  ) as Edition;
