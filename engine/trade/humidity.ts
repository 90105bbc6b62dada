import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import type { AirState } from './humidification.ts';
import { humidityRatio, MASS_RATIO, RELATIVE_HUMIDITY_RANGE, saturationPressure, specificVolume, standardPressure } from './moist-air.ts';
import { AIR_CHANGES_RANGE, firstOutside, INDOOR_RANGE, OUTDOOR_RANGE } from './ranges.ts';
import { ZERO_CELSIUS } from './thermistor.ts';

/**
 * Relative humidity (0 to 1) of the same air warmed or cooled from one temperature (kelvin) to another: its vapor pressure stays, what it
 * could hold does not. No answer where it would be past its dew point: water leaves it.
 */
export function humidityAt(air: AirState, kelvin: number): Result<number, ComputeProblem> {
  const outside = firstOutside([RELATIVE_HUMIDITY_RANGE, air.relativeHumidity]);
  if (outside) return failure(outside);
  const before = saturationPressure(air.kelvin);
  if (!before.ok) return before;
  const after = saturationPressure(kelvin);
  if (!after.ok) return after;
  const humidity = (air.relativeHumidity * before.value) / after.value;
  return humidity <= 1 + 1e-9 ? success(humidity) : failure({ code: 'no-answer', what: 'air cooled past its dew point, which loses water' });
}

/** Relative humidity (0 to 1) of air at a temperature with a dew point, both kelvin. */
export function humidityFromDewPoint(kelvin: number, dewPoint: number): Result<number, ComputeProblem> {
  if (dewPoint > kelvin) return failure({ code: 'no-answer', what: 'a dew point above the temperature of the air' });
  return humidityAt({ kelvin: dewPoint, relativeHumidity: 1 }, kelvin);
}

/**
 * Relative humidity (0 to 1) from a thermometer and one with a wet wick in moving air, both kelvin, at an elevation in metres: equations
 * 33 (over water) and 35 (a frozen wick) of the ASHRAE Handbook, Fundamentals (2017), chapter 1, in SI.
 */
export function humidityFromWetBulb(kelvin: number, wetBulb: number, elevation: number): Result<number, ComputeProblem> {
  if (wetBulb > kelvin) return failure({ code: 'no-answer', what: 'a wet bulb above the dry one' });
  const pressure = standardPressure(elevation);
  if (!pressure.ok) return pressure;
  const saturated = humidityRatio(wetBulb, 1, pressure.value);
  if (!saturated.ok) return saturated;
  const dry = kelvin - ZERO_CELSIUS;
  const wet = wetBulb - ZERO_CELSIUS;
  const ratio =
    wet >= 0
      ? ((2501 - 2.326 * wet) * saturated.value - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
      : ((2830 - 0.24 * wet) * saturated.value - 1.006 * (dry - wet)) / (2830 + 1.86 * dry - 2.1 * wet);
  if (!(ratio >= 0)) return failure({ code: 'no-answer', what: 'two thermometers further apart than the driest air puts them' });
  return fromRatio(kelvin, ratio, pressure.value);
}

function fromRatio(kelvin: number, ratio: number, pressure: number): Result<number, ComputeProblem> {
  const saturation = saturationPressure(kelvin);
  return saturation.ok ? success(Math.min(1, (ratio * pressure) / (MASS_RATIO + ratio) / saturation.value)) : saturation;
}

/**
 * Relative humidity (0 to 1) at which a house settles when so much water (kg/s) goes into its air: the load equation of
 * `humidificationLoad` the other way round. Volume in m³, air changes in 1/s, elevation in metres. 1 where it would be more: water runs
 * down the glass long before.
 */
export function humidityHeld(
  volume: number,
  airChanges: number,
  indoor: number,
  outdoor: AirState,
  water: number,
  elevation: number,
): Result<number, ComputeProblem> {
  if (!(volume > 0 && airChanges > 0)) return failure({ code: 'no-answer', what: 'a house that changes no air' });
  if (!(water >= 0)) return failure({ code: 'no-answer', what: 'water below zero' });
  const outside = firstOutside([AIR_CHANGES_RANGE, airChanges], [INDOOR_RANGE, indoor], [OUTDOOR_RANGE, outdoor.kelvin]);
  if (outside) return failure(outside);
  const pressure = standardPressure(elevation);
  if (!pressure.ok) return pressure;
  const leakingIn = humidityRatio(outdoor.kelvin, outdoor.relativeHumidity, pressure.value);
  if (!leakingIn.ok) return leakingIn;
  // water = k (W − Wo) / (1 + W/ε), with k the dry air that a volume of dry indoor air would bring.
  const dryAir = (volume * airChanges) / specificVolume(indoor, 0, pressure.value);
  const rest = dryAir - water / MASS_RATIO;
  if (rest <= 0) return success(1);
  return fromRatio(indoor, (water + dryAir * leakingIn.value) / rest, pressure.value);
}
