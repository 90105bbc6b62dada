import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { humidityRatio, specificVolume, standardPressure } from './moist-air.ts';
import { AIR_CHANGES_RANGE, firstOutside, INDOOR_RANGE, OUTDOOR_RANGE } from './ranges.ts';

/** Air by temperature (kelvin) and relative humidity (0 to 1). */
export type AirState = { readonly kelvin: number; readonly relativeHumidity: number };

/**
 * kg/s of water that hold a house at its humidity against the outdoor air that leaks in: H = ρ·V·R·(Wi − Wo), the natural-infiltration
 * part of the load equation of the ASHRAE Handbook, HVAC Systems and Equipment, humidifiers chapter. Volume in m³, air changes in 1/s,
 * elevation in metres. ρ is the dry air in a volume of indoor air (1/v of the indoor state). Nothing is taken off for what people,
 * kitchen and baths give, and nothing added for what cold coils take. 0 where the outdoor air holds more water than the indoor air.
 */
export function humidificationLoad(
  volume: number,
  airChanges: number,
  indoor: AirState,
  outdoor: AirState,
  elevation: number,
): Result<number, ComputeProblem> {
  if (!(volume > 0)) return failure({ code: 'no-answer', what: 'a house of no volume' });
  const outside = firstOutside([AIR_CHANGES_RANGE, airChanges], [INDOOR_RANGE, indoor.kelvin], [OUTDOOR_RANGE, outdoor.kelvin]);
  if (outside) return failure(outside);
  const pressure = standardPressure(elevation);
  if (!pressure.ok) return pressure;
  const inside = humidityRatio(indoor.kelvin, indoor.relativeHumidity, pressure.value);
  if (!inside.ok) return inside;
  const leakingIn = humidityRatio(outdoor.kelvin, outdoor.relativeHumidity, pressure.value);
  if (!leakingIn.ok) return leakingIn;
  const dryAir = (volume * airChanges) / specificVolume(indoor.kelvin, inside.value, pressure.value);
  return success(Math.max(0, dryAir * (inside.value - leakingIn.value)));
}

/** kg/s of a load that are left when people, kitchen and baths have given theirs; 0 where they give it all, and no humidifier is needed. */
export function loadLeft(load: number, given: number): Result<number, ComputeProblem> {
  if (!(load >= 0 && given >= 0)) return failure({ code: 'no-answer', what: 'water below zero' });
  return success(Math.max(0, load - given));
}

/** kg/m³, of water at 39 °F: 8.345 lb/gal. At 60 °F it is 0.1 % less. */
export const WATER_DENSITY = 999.97;

/** m³/s of liquid water, from kg/s. */
export const waterFlow = (massFlow: number): number => massFlow / WATER_DENSITY;
