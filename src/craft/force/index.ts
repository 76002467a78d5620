export { type BrittleCaution, type BrittleMaterial, brittleCaution } from './brittle.js';
export { forceNewtons, type PressDrive, settingFor } from './drives.js';
export { newtonsFor, pressurePascal } from './on-blank.js';
export {
  type ForceUnit,
  forceUnits,
  fromNewtons,
  fromPascal,
  type PressureUnit,
  pressureUnits,
  standardGravityMPerS2,
  toNewtons,
  toPascal,
} from './units.js';
