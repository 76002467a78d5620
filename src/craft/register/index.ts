export { findCylinder } from './find-cylinder.js';
export { divideLighting, fitLighting, gainAt, type LaidOver, noLighting } from './fit-lighting.js';
export { greyThrough, lightThrough } from './lay-over.js';
export { type GreyField, type LocalShift, localShifts, type ShiftOptions } from './local-shifts.js';
export { type Refined, type RefineLevel, refineMap } from './refine-map.js';
export {
  fitCylinder,
  fitCylinderAngle,
  fitFlat,
  type MatchedPlace,
  missOf,
  placeInPhoto,
  resizedMap,
  stretchAt,
} from './surface-map.js';
export type * from './types.js';
