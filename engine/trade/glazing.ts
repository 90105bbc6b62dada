import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { saturationPressure } from './moist-air.ts';
import { firstOutside, INDOOR_RANGE, OUTDOOR_RANGE, type ValidRange } from './ranges.ts';

// W/(m²·K) of 1 Btu/(h·ft²·°F), from the exact Btu (IT), foot and degree.
const BTU_PER_HOUR_FT2_F = 5.678263;

/**
 * Surface conductance of still room air at upright glass, 1.46 Btu/(h·ft²·°F): ASHRAE Handbook, Fundamentals; from memory. A curtain, a
 * deep sill or a shut blind lowers it, and the glass is then colder.
 */
export const INSIDE_FILM = 1.46;

/**
 * U-factors at the center of the glass in winter, Btu/(h·ft²·°F): older ASHRAE Handbooks, Fundamentals, single sheet and two sheets with
 * 1/4 in of air between; from memory. With the film above they give the handbook's list of highest indoor humidities within 1 %RH.
 */
export const GLAZING_U_FACTORS = { single: 1.13, double: 0.65 } as const;
export type Glazing = keyof typeof GLAZING_U_FACTORS;

// Past single glass in a gale nothing is glazing; the glass would be as cold as the outdoors.
const U_RANGE: ValidRange = { what: 'A U-factor', from: 0.05, to: 1.3, unit: 'Btu/(h·ft²·°F)' };

/** W/(m²·K) of a kind of glazing. */
export const uFactorOf = (glazing: Glazing): number => GLAZING_U_FACTORS[glazing] * BTU_PER_HOUR_FT2_F;

/**
 * Highest relative humidity (0 to 1) of the room at which the center of the glass stays dry: the room's dew point is the temperature of
 * the glass, Ti − (U/h)·(Ti − To). Kelvin and W/(m²·K). Edges and frames are colder than the center and wet earlier. 1 where it is no
 * colder outside than in.
 */
export function highestHumidity(indoor: number, outdoor: number, uFactor: number): Result<number, ComputeProblem> {
  const outside = firstOutside([INDOOR_RANGE, indoor], [OUTDOOR_RANGE, outdoor], [U_RANGE, uFactor]);
  if (outside) return failure(outside);
  const glass = indoor - (uFactor / (INSIDE_FILM * BTU_PER_HOUR_FT2_F)) * (indoor - outdoor);
  const atGlass = saturationPressure(Math.min(glass, indoor));
  if (!atGlass.ok) return atGlass;
  const inRoom = saturationPressure(indoor);
  return inRoom.ok ? success(atGlass.value / inRoom.value) : inRoom;
}
