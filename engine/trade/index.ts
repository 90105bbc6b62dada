export { type CoilImpedance, coilImpedance, coilInductance } from './coil.ts';
export { CURVES, THERMISTOR_CURVES, type ThermistorCurve, thermistorOhms, thermistorTemperature } from './thermistor.ts';
export { TRADE_FUNCTIONS } from './trade-functions.ts';
export { MAGNETISING_SHARE, type TransformerModel, transformerModel, transformerRegulation } from './transformer.ts';
export { COPPER_COEFFICIENT, COPPER_RESISTIVITY, wireDiameter, wireOhms } from './wire.ts';
