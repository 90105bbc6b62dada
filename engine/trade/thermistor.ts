import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';

/**
 * Resistance curves of NTC thermistors that are 10 kΩ at 25 °C (77 °F), as 1/T = c0 + c1·x + c2·x² + c3·x³ with T in kelvin and
 * x = ln(R / reference). Never one beta: the beta of one and the same material is 3892 over 0..50 °C and 3977 over 25..85 °C.
 *
 * The type names are trade usage, no standard, and makers differ: tell a sensor by its ohms in an ice bath (`atIce`), not by its name.
 */
type Curve = {
  readonly coefficients: readonly [number, number, number, number];
  readonly reference: number;
  /** °C, the range in which the curve was published. */
  readonly from: number;
  readonly to: number;
  /** Ω at 0 °C of a 10 kΩ sensor. */
  readonly atIce: number;
  readonly about: string;
  readonly source: string;
};

export const THERMISTOR_CURVES = ['type-2', 'type-3', 'beta-3435'] as const;
export type ThermistorCurve = (typeof THERMISTOR_CURVES)[number];

export const CURVES: Readonly<Record<ThermistorCurve, Curve>> = {
  'type-2': {
    coefficients: [1.129241e-3, 2.341077e-4, 0, 8.775468e-8],
    reference: 1,
    from: -40,
    to: 120,
    atIce: 32650,
    about: '10 kΩ type 2 (beta 3892 over 0..50 °C), 32 650 Ω in an ice bath',
    source:
      'published Steinhart–Hart coefficients A 1.129241e-3, B 2.341077e-4, C 8.775468e-8; within 0.02 °C of published tables from -40 to 70 °C, 0.12 °C at 120 °C',
  },
  'type-3': {
    coefficients: [1.0295e-3, 2.391e-4, 0, 1.568e-7],
    reference: 1,
    from: -50,
    to: 130,
    atIce: 29490,
    about: '10 kΩ type 3 (beta 3575 over 0..50 °C), 29 490 Ω in an ice bath; another part sold by this name has 29 588 Ω there',
    source:
      'published Steinhart–Hart coefficients A 1.0295e-3, B 2.391e-4, C 1.568e-7; within 0.04 °C of a published table from -50 to 120 °C, 0.07 °C at 130 °C',
  },
  'beta-3435': {
    coefficients: [3.3539653e-3, 3.00282348e-4, 5.35806777e-6, 2.86869542e-7],
    reference: 10000,
    from: -40,
    to: 110,
    atIce: 27280,
    about: '10 kΩ of the beta 3435 class (25..85 °C), 27 280 Ω in an ice bath',
    source:
      'least-squares fit to a published table (β 3435 over 25..85 °C), within 0.02 °C of it; other makers of the class differ by up to 0.7 °C at -40 °C and 0.07 °C from 0 to 100 °C',
  },
};

export const ZERO_CELSIUS = 273.15;
const T25 = 25 + ZERO_CELSIUS;

const perKelvin = ({ coefficients: [c0, c1, c2, c3] }: Curve, x: number): number => c0 + x * (c1 + x * (c2 + x * c3));
const slope = ({ coefficients: [, c1, c2, c3] }: Curve, x: number): number => c1 + x * (2 * c2 + x * 3 * c3);

// ln(R / reference) at T. Newton's method; each curve is monotone over its range, so it settles in a few turns.
function logOhms(curve: Curve, kelvin: number): number {
  let x = Math.log(10000 / curve.reference);
  for (let turn = 0; turn < 50; turn += 1) {
    const step = (perKelvin(curve, x) - 1 / kelvin) / slope(curve, x);
    x -= step;
    if (Math.abs(step) < 1e-14) break;
  }
  return x;
}

const LOG_OHMS_AT_25 = new Map<ThermistorCurve, number>(THERMISTOR_CURVES.map((name) => [name, logOhms(CURVES[name], T25)]));

/**
 * Ohms of a thermistor at a temperature (kelvin). A part with another resistance at 25 °C of the same material has the same curve,
 * scaled. Outside the published range there is no answer.
 */
export function thermistorOhms(ohmsAt25: number, name: ThermistorCurve, kelvin: number): Result<number, ComputeProblem> {
  const curve = CURVES[name];
  const celsius = kelvin - ZERO_CELSIUS;
  if (!(celsius >= curve.from - 1e-9 && celsius <= curve.to + 1e-9)) {
    return failure({ code: 'out-of-range', what: `temperature of a ${name} thermistor`, value: celsius, from: curve.from, to: curve.to, unit: '°C' });
  }
  if (!(ohmsAt25 > 0)) return failure({ code: 'no-answer', what: 'a thermistor of no resistance' });
  return success(ohmsAt25 * Math.exp(logOhms(curve, kelvin) - (LOG_OHMS_AT_25.get(name) ?? 0)));
}

/** The temperature (kelvin) at which a thermistor has these ohms. */
export function thermistorTemperature(ohmsAt25: number, name: ThermistorCurve, ohms: number): Result<number, ComputeProblem> {
  const curve = CURVES[name];
  const at = (celsius: number): number => ohmsAt25 * Math.exp(logOhms(curve, celsius + ZERO_CELSIUS) - (LOG_OHMS_AT_25.get(name) ?? 0));
  // A degree of grace, so that the printed ends of a table, rounded or of another maker, still read.
  const most = at(curve.from - 1);
  const least = at(curve.to + 1);
  if (!(ohms >= least && ohms <= most)) {
    return failure({
      code: 'out-of-range',
      what: `resistance of a ${name} thermistor`,
      value: ohms,
      from: fourDigits(least),
      to: fourDigits(most),
      unit: 'ohm',
    });
  }
  return success(1 / perKelvin(curve, Math.log(ohms / ohmsAt25) + (LOG_OHMS_AT_25.get(name) ?? 0)));
}

/**
 * How many kelvin a control shows too much (above 0) or too little, when it was made for one curve and the sensor on it has another.
 * Both of the same ohms at 25 °C, where the error is nothing.
 */
export function thermistorMismatch(
  ohmsAt25: number,
  sensor: ThermistorCurve,
  control: ThermistorCurve,
  kelvin: number,
): Result<number, ComputeProblem> {
  const ohms = thermistorOhms(ohmsAt25, sensor, kelvin);
  if (!ohms.ok) return ohms;
  const shown = thermistorTemperature(ohmsAt25, control, ohms.value);
  return shown.ok ? success(shown.value - kelvin) : shown;
}

/** Of an end that is itself worked out, no more digits than its table has. */
const fourDigits = (value: number): number => Number(value.toPrecision(4));
