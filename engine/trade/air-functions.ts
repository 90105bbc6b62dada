import type { FormulaParameter, FunctionTable } from '../formula/index.ts';
import { DIMENSIONS } from '../quantity/index.ts';
import { success } from '../result.ts';
import { airFreeCarbonMonoxide } from './combustion.ts';
import { GLAZING_U_FACTORS, type Glazing, highestHumidity, uFactorOf } from './glazing.ts';
import { humidificationLoad, loadLeft, waterFlow } from './humidification.ts';
import { dewPoint, humidityRatio, saturationPressure, standardPressure } from './moist-air.ts';
import { numberArgument as num, quantityParameter as quantity } from './quantity-argument.ts';

const GLAZINGS = Object.keys(GLAZING_U_FACTORS) as readonly Glazing[];
const glazingOf = (value: number | string | undefined): Glazing => GLAZINGS.find((name) => name === value) ?? 'single';

const TEMPERATURE = quantity('temperature', DIMENSIONS.temperature, '°F');
const HUMIDITY = quantity('relative humidity', DIMENSIONS.number, '%RH');
const ELEVATION = quantity('elevation', DIMENSIONS.length, 'ft');
const INDOOR = quantity('indoor temperature', DIMENSIONS.temperature, '°F');
const OUTDOOR = quantity('outdoor temperature', DIMENSIONS.temperature, '°F');
const GLAZING: FormulaParameter = { name: 'glazing', takes: 'choice', choices: GLAZINGS };
const U_FACTOR = quantity('U-factor', DIMENSIONS['thermal transmittance'], 'Btu/(h·ft²·°F)');

const FUNDAMENTALS = 'ASHRAE Handbook, Fundamentals (2017), chapter 1';
const AT_GLASS = `dew point of the room at the temperature of the glass, Ti − (U/h)(Ti − To); saturation as ${FUNDAMENTALS}; h 1.46 Btu/(h·ft²·°F), from memory`;

/** Moist air, glass and flue gas. */
export const AIR_FUNCTIONS = {
  'saturation-pressure': {
    parameters: [TEMPERATURE],
    result: DIMENSIONS.pressure,
    unit: 'psi',
    about: 'Pressure of water vapor in saturated air: over water, and over ice below freezing.',
    source: `${FUNDAMENTALS}, equations 5 and 6`,
    compute: ([kelvin]) => saturationPressure(num(kelvin)),
  },
  'humidity-ratio': {
    parameters: [TEMPERATURE, HUMIDITY, ELEVATION],
    result: DIMENSIONS.number,
    unit: 'gr/lb',
    about: 'Water in the air: grains a pound of dry air.',
    source: `${FUNDAMENTALS}, equations 3, 5, 6 and 20`,
    compute: ([kelvin, humidity, elevation]) => {
      const pressure = standardPressure(num(elevation));
      return pressure.ok ? humidityRatio(num(kelvin), num(humidity), pressure.value) : pressure;
    },
  },
  'dew-point': {
    parameters: [TEMPERATURE, HUMIDITY],
    result: DIMENSIONS.temperature,
    unit: '°F',
    about: 'The temperature at which this air wets what it touches; below freezing, frosts it.',
    source: `${FUNDAMENTALS}, equations 5 and 6 solved for the temperature`,
    compute: ([kelvin, humidity]) => dewPoint(num(kelvin), num(humidity)),
  },
  'humidification-load': {
    parameters: [
      quantity('volume of the house', DIMENSIONS.volume, 'ft3'),
      quantity('air changes', DIMENSIONS.frequency, 'ACH'),
      INDOOR,
      { ...HUMIDITY, name: 'indoor relative humidity' },
      OUTDOOR,
      { ...HUMIDITY, name: 'outdoor relative humidity' },
      ELEVATION,
    ],
    result: DIMENSIONS['mass flow'],
    unit: 'lb/h',
    about: 'Water that holds a house at its humidity against the outdoor air that leaks in. What people, kitchen and baths give is not taken off.',
    source: `H = ρV R(Wi − Wo), ASHRAE Handbook, HVAC Systems and Equipment, humidifiers chapter, quoted at second hand; states of the air as ${FUNDAMENTALS}; ρ as dry air in a volume of indoor air`,
    compute: ([volume, changes, indoor, indoorHumidity, outdoor, outdoorHumidity, elevation]) =>
      humidificationLoad(
        num(volume),
        num(changes),
        { kelvin: num(indoor), relativeHumidity: num(indoorHumidity) },
        { kelvin: num(outdoor), relativeHumidity: num(outdoorHumidity) },
        num(elevation),
      ),
  },
  'load-left': {
    parameters: [quantity('load', DIMENSIONS['mass flow'], 'lb/h'), quantity('water given inside', DIMENSIONS['mass flow'], 'lb/h')],
    result: DIMENSIONS['mass flow'],
    unit: 'lb/h',
    about: 'What a humidifier has to add: the load less the water that people, kitchen and baths give. 0 where they give it all.',
    source: 'the − S of the load equation, ASHRAE Handbook, HVAC Systems and Equipment, humidifiers chapter, quoted at second hand; not below zero',
    compute: ([load, given]) => loadLeft(num(load), num(given)),
  },
  'water-flow': {
    parameters: [quantity('mass flow', DIMENSIONS['mass flow'], 'lb/h')],
    result: DIMENSIONS['volume flow'],
    unit: 'gpd',
    about: 'A mass flow of water as gallons a day.',
    source: 'density of water, 8.345 lb/gal at 39 °F',
    compute: ([massFlow]) => success(waterFlow(num(massFlow))),
  },
  'highest-humidity': {
    parameters: [INDOOR, OUTDOOR, GLAZING],
    result: DIMENSIONS.number,
    unit: '%RH',
    about:
      'Highest indoor humidity before the center of the glass gets wet, for a single sheet or an old double pane. Edges and frames wet earlier: stay below.',
    source: `${AT_GLASS}; U 1.13 single, 0.65 double with 1/4 in of air, from memory`,
    compute: ([indoor, outdoor, glazing]) => highestHumidity(num(indoor), num(outdoor), uFactorOf(glazingOf(glazing))),
  },
  'highest-humidity-at': {
    parameters: [INDOOR, OUTDOOR, U_FACTOR],
    result: DIMENSIONS.number,
    unit: '%RH',
    about: 'Highest indoor humidity before the center of glass of this U-factor gets wet. Edges and frames wet earlier: stay below.',
    source: AT_GLASS,
    compute: ([indoor, outdoor, uFactor]) => highestHumidity(num(indoor), num(outdoor), num(uFactor)),
  },
  'co-air-free': {
    parameters: [quantity('carbon monoxide', DIMENSIONS.number, 'ppm'), quantity('oxygen', DIMENSIONS.number, '%')],
    result: DIMENSIONS.number,
    unit: 'ppm',
    about: 'Carbon monoxide of flue gas as if no excess air had thinned it.',
    source: 'CO × 20.9 / (20.9 − O2), trade practice; the 20.9 % is the oxygen of dry air',
    compute: ([carbonMonoxide, oxygen]) => airFreeCarbonMonoxide(num(carbonMonoxide), num(oxygen)),
  },
} as const satisfies FunctionTable;
