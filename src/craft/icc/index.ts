export { buildLink, buildProofLink } from './build-link.js';
export { type BuiltinProfileName, builtinProfile } from './builtin.js';
export { type CurveFunction, curveFunction } from './curve.js';
export { describeProfile } from './describe.js';
export { encodeProfile, type UtcMoment } from './encode-profile.js';
export { linkFunction } from './evaluate-link.js';
export { exactInBends, type MendPixels } from './exact-in-bends.js';
export type * from './link.js';
export { parseProfile } from './parse-profile.js';
export {
  lookUpReach,
  type Reach,
  type ReachTable,
  reachDeltaE00,
  reachTable,
  reachThresholdDeltaE00,
} from './reach.js';
export { createTransform, deviceToLab, labToDevice, mediaWhite } from './transform.js';
export type * from './types.js';
export { type RgbLutProfileSpec, type RgbLutTables, writeRgbLutProfile } from './write-rgb-lut.js';
