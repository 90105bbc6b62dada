import type { FunctionTable } from '../formula/index.ts';
import { DIMENSIONS } from '../quantity/index.ts';
import { humidityAt, humidityFromDewPoint, humidityFromWetBulb, humidityHeld } from './humidity.ts';
import { numberArgument as num, quantityParameter as quantity } from './quantity-argument.ts';

const TEMPERATURE = quantity('temperature', DIMENSIONS.temperature, '°F');
const ELEVATION = quantity('elevation', DIMENSIONS.length, 'ft');
const FUNDAMENTALS = 'ASHRAE Handbook, Fundamentals (2017), chapter 1';

/** Relative humidity, from what else is known of the air. */
export const HUMIDITY_FUNCTIONS = {
  'humidity-at': {
    parameters: [TEMPERATURE, quantity('relative humidity', DIMENSIONS.number, '%RH'), quantity('other temperature', DIMENSIONS.temperature, '°F')],
    result: DIMENSIONS.number,
    unit: '%RH',
    about: 'Relative humidity of the same air at another temperature: of outdoor air that leaks in and warms up, or of room air in a cold duct.',
    source: `${FUNDAMENTALS}, equations 5 and 6: the vapor pressure stays`,
    compute: ([kelvin, humidity, other]) => humidityAt({ kelvin: num(kelvin), relativeHumidity: num(humidity) }, num(other)),
  },
  'humidity-from-dew-point': {
    parameters: [TEMPERATURE, quantity('dew point', DIMENSIONS.temperature, '°F')],
    result: DIMENSIONS.number,
    unit: '%RH',
    about: 'Relative humidity of air with this dew point (below freezing, frost point).',
    source: `${FUNDAMENTALS}, equations 5, 6 and 22`,
    compute: ([kelvin, dewPoint]) => humidityFromDewPoint(num(kelvin), num(dewPoint)),
  },
  'humidity-from-wet-bulb': {
    parameters: [TEMPERATURE, quantity('wet bulb', DIMENSIONS.temperature, '°F'), ELEVATION],
    result: DIMENSIONS.number,
    unit: '%RH',
    about: 'Relative humidity from a thermometer and one with a wet wick, both in moving air.',
    source: `${FUNDAMENTALS}, equations 3, 5, 6, 20, 33 and 35`,
    compute: ([kelvin, wetBulb, elevation]) => humidityFromWetBulb(num(kelvin), num(wetBulb), num(elevation)),
  },
  'humidity-held': {
    parameters: [
      quantity('volume of the house', DIMENSIONS.volume, 'ft3'),
      quantity('air changes', DIMENSIONS.frequency, 'ACH'),
      quantity('indoor temperature', DIMENSIONS.temperature, '°F'),
      quantity('outdoor temperature', DIMENSIONS.temperature, '°F'),
      quantity('outdoor relative humidity', DIMENSIONS.number, '%RH'),
      quantity('water into the air', DIMENSIONS['mass flow'], 'lb/h'),
      ELEVATION,
    ],
    result: DIMENSIONS.number,
    unit: '%RH',
    about:
      'The humidity at which a house settles with so much water going into its air, people, kitchen and baths included. 100 where it would be more.',
    source: `H = ρV R(Wi − Wo), ASHRAE Handbook, HVAC Systems and Equipment, humidifiers chapter, quoted at second hand, solved for Wi; states of the air as ${FUNDAMENTALS}`,
    compute: ([volume, changes, indoor, outdoor, outdoorHumidity, water, elevation]) =>
      humidityHeld(
        num(volume),
        num(changes),
        num(indoor),
        { kelvin: num(outdoor), relativeHumidity: num(outdoorHumidity) },
        num(water),
        num(elevation),
      ),
  },
} as const satisfies FunctionTable;
