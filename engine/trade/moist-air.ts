import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { firstOutside, type ValidRange, within } from './ranges.ts';
import { ZERO_CELSIUS } from './thermistor.ts';

// ASHRAE Handbook, Fundamentals (2017), chapter 1: equations 3 (standard atmosphere), 5 and 6 (saturation), 20 (humidity ratio) and
// 26 (specific volume), in SI. Air and vapor are taken as ideal gases, which leaves the humidity ratio about 0.5 % below the
// handbook's tables: the enhancement factor.

/** Of saturation pressure: from the coldest of equation 5 to the hottest of equation 6. */
export const SATURATION_RANGE: ValidRange = { what: 'A temperature', from: -148, to: 392, unit: '°F' };
export const RELATIVE_HUMIDITY_RANGE: ValidRange = { what: 'A relative humidity', from: 0, to: 100, unit: '%RH' };
export const ELEVATION_RANGE: ValidRange = { what: 'An elevation', from: -16_500, to: 36_000, unit: 'ft' };

/** J/(kg·K), of dry air. */
const DRY_AIR_CONSTANT = 287.042;
/** Molar mass of water over that of dry air; its inverse is the 1.607858 of equation 26. */
export const MASS_RATIO = 0.621945;
// The two saturation equations meet at the triple point, not at 0 °C.
const TRIPLE_POINT = 0.01 + ZERO_CELSIUS;
// −148 °F.
const COLDEST = -100 + ZERO_CELSIUS;

const logOverIce = (t: number): number =>
  -5.6745359e3 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t ** 2 + 2.0747825e-9 * t ** 3 - 9.484024e-13 * t ** 4 + 4.1635019 * Math.log(t);
const logOverWater = (t: number): number =>
  -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t ** 2 - 1.4452093e-8 * t ** 3 + 6.5459673 * Math.log(t);
const logSaturation = (kelvin: number): number => (kelvin <= TRIPLE_POINT ? logOverIce(kelvin) : logOverWater(kelvin));

/** Pa, of water vapor over water, or over ice below freezing. −148 to 392 °F. */
export function saturationPressure(kelvin: number): Result<number, ComputeProblem> {
  const temperature = within(SATURATION_RANGE, kelvin);
  return temperature.ok ? success(Math.exp(logSaturation(kelvin))) : temperature;
}

/** Pa at an elevation in metres: the standard atmosphere, equation 3. −16 500 to 36 000 ft. */
export function standardPressure(metres: number): Result<number, ComputeProblem> {
  const elevation = within(ELEVATION_RANGE, metres);
  return elevation.ok ? success(101_325 * (1 - 2.25577e-5 * metres) ** 5.2559) : elevation;
}

/** Pa of vapor in air of a relative humidity (0 to 1). */
function vaporPressure(kelvin: number, relativeHumidity: number): Result<number, ComputeProblem> {
  const outside = firstOutside([RELATIVE_HUMIDITY_RANGE, relativeHumidity]);
  if (outside) return failure(outside);
  const saturation = saturationPressure(kelvin);
  return saturation.ok ? success(saturation.value * relativeHumidity) : saturation;
}

/** Mass of water in a mass of dry air, from temperature (kelvin), relative humidity (0 to 1) and pressure (Pa). */
export function humidityRatio(kelvin: number, relativeHumidity: number, pressure: number): Result<number, ComputeProblem> {
  const vapor = vaporPressure(kelvin, relativeHumidity);
  if (!vapor.ok) return vapor;
  if (!(vapor.value < pressure)) return failure({ code: 'no-answer', what: 'water boils at this temperature and pressure' });
  return success((MASS_RATIO * vapor.value) / (pressure - vapor.value));
}

/** m³ of moist air that hold 1 kg of dry air. */
export const specificVolume = (kelvin: number, ratio: number, pressure: number): number =>
  (DRY_AIR_CONSTANT * kelvin * (1 + ratio / MASS_RATIO)) / pressure;

/**
 * Kelvin at which the vapor of this air is saturated: dew above freezing, frost below. Solved from the saturation equations, not from a
 * regression. Never above the air's own temperature.
 */
export function dewPoint(kelvin: number, relativeHumidity: number): Result<number, ComputeProblem> {
  const vapor = vaporPressure(kelvin, relativeHumidity);
  if (!vapor.ok) return vapor;
  const target = Math.log(vapor.value);
  let low = COLDEST;
  let high = kelvin;
  if (!(logSaturation(low) <= target)) return failure({ code: 'no-answer', what: 'air as dry as this has no dew point above −148 °F' });
  // Halved and not Newton's: the two equations meet with a kink, and 60 halvings of 300 K are below a rounding error.
  for (let turn = 0; turn < 60; turn += 1) {
    const middle = (low + high) / 2;
    if (logSaturation(middle) < target) low = middle;
    else high = middle;
  }
  return success((low + high) / 2);
}
