export {
  DIMENSIONS,
  type Dimension,
  dimensionName,
  NUMBER,
  overDimension,
  TEMPERATURE,
  TEMPERATURE_DIFFERENCE,
  timesDimension,
  WIRE_GAUGE,
} from './dimension.ts';
export {
  countSize,
  halfWidth,
  type MeterAccuracy,
  type MeterAccuracyProblem,
  readMeterAccuracy,
  showMeterAccuracy,
  USUAL_METER,
} from './meter-accuracy.ts';
export { NEEDS_DEAD_CIRCUIT, QUANTITY_KIND_NAMES, QUANTITY_KINDS, type QuantityKind, type QuantityKindName, quantityKind } from './quantity-kind.ts';
export { showIn, showQuantity, unitSign } from './show-quantity.ts';
export { readTypedValue, type TypedValue, type TypedValueProblem } from './typed-value.ts';
export { typedValueWords } from './typed-value-words.ts';
export { fromSi, plainUnitText, toSi, UNIT_SPELLINGS, type Unit, unitOf } from './unit.ts';
