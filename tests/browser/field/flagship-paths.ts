import type { Answers } from './field-driver.ts';

/** The tree that every test of the field app walks. */
export const FLAGSHIP = 'No water at the pad';

/** Own transformer live, contact jumpered, coil has its volts and stays silent: a winding that is broken. */
export const TO_COIL_OPEN: Answers = {
  'Water at the pad': 'pad dry',
  'The control asks': 'asks for humidity',
  'Supply cock': 'open',
  'Click at the valve': 'silent',
  'Power at R and C': '26.4',
  'Water with the jumper on': 'still dry',
  'Volts at the valve': '25.8',
  'What hangs on V1 and V2': 'own transformer',
  'Dead at the coil': '0.0',
  'Coil resistance': 'OL',
};

/** The same house, but with the contact jumpered nothing comes out at K1: R's wire to the contact is missing. */
export const TO_FEED_WIRE_MISSING: Answers = {
  ...TO_COIL_OPEN,
  'Volts at the valve': '0.1',
  'Volts at K1': '0.2',
};
