import type { FunctionTable } from '../../engine/formula/index.ts';
import { DIMENSIONS } from '../../engine/quantity/index.ts';
import { success } from '../../engine/result.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import type { Surroundings } from '../../engine/tree/index.ts';

/** A function of the kind that bands may call. */
export const SAMPLE_FUNCTIONS: FunctionTable = {
  divided: {
    parameters: [
      { name: 'volts', takes: 'quantity', dimension: DIMENSIONS.voltage, unit: 'V' },
      { name: 'upper', takes: 'quantity', dimension: DIMENSIONS.resistance, unit: 'ohm' },
      { name: 'lower', takes: 'quantity', dimension: DIMENSIONS.resistance, unit: 'ohm' },
    ],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'Volts across the lower of two resistances in series.',
    source: "Ohm's law.",
    compute: ([volts, upper, lower]) => success((Number(volts) * Number(lower)) / (Number(upper) + Number(lower))),
  },
};

/** One bench and two other trees, as small as the sample tree needs. */
export const SAMPLE_SURROUNDINGS: Surroundings = {
  benches: {
    'own-transformer': {
      terminals: ['L1', 'N', 'R', 'C', 'K1', 'K2', 'V1'],
      leads: ['coil-hot'],
      settings: { 'main-power': ['on', 'off'], 'heat-call': ['on', 'off'], 'humidity-call': ['on', 'off'] },
      signs: ['display-lit', 'valve-open', 'water-runs'],
      faults: ['coil-open', 'contact-stuck', 'feed-missing', 'cock-shut'],
      facts: {
        run: { quantity: 'length', ask: 'Cable from control to valve', usual: '40 ft', from: '10 ft', to: '150 ft' },
      },
    },
  },
  trees: {
    'no-heat': { title: 'No heat', first: 'call-for-heat', steps: { 'call-for-heat': 'Call for heat', 'flame-proved': 'Flame proved' } },
    'control-has-no-power': { title: 'Control has no power', first: 'thermostat-screen', steps: { 'thermostat-screen': 'Thermostat screen' } },
  },
  functions: { ...TRADE_FUNCTIONS, ...SAMPLE_FUNCTIONS },
  figures: ['figures/terminals.png'],
};
