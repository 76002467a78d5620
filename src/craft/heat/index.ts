export { type Caution, heatCautions } from './cautions.js';
export { cautionsFor, type Pressing } from './cautions-for.js';
export { safetyBoundC } from './check-run.js';
export {
  type DoseKinetics,
  doseCourse,
  doseRate,
  doseSeconds,
  gasConstant,
  priorKinetics,
  type Trace,
} from './dose.js';
export { type DryingEstimate, dryingEstimate, latentHeatJPerKg, usualPaperMoisture } from './drying.js';
export { type RunFactors, withFactors } from './factors.js';
export {
  type ContactEvidence,
  type ContactFit,
  type ContactFitRequest,
  type FittedJoint,
  fitContacts,
} from './fit-contacts.js';
export { contactC, effusivity } from './half-space.js';
export { courseBand, type HeatBand, type HeatBandRequest, heatBand } from './heat-band.js';
export { type MaterialId, materials } from './materials.js';
export { type PieceEnergy, pieceEnergy } from './piece-energy.js';
export { piecesInARow } from './pieces-in-a-row.js';
export { type PlatenErrorCost, platenErrorCost } from './platen-error.js';
export { doseWithin, type PressCase, type PressDose, pressDose, withDwell } from './press-case.js';
export {
  flatPressRun,
  guessedJointM2KPerW,
  mugPressRun,
  ovenRun,
  type PressedBlank,
  type PressStackRequest,
  type PressTimes,
  usualPlaten,
  usualWrap,
} from './press-stack.js';
export { peak, platenSag, reachesAt, shockK, spanOf } from './run-facts.js';
export { runHeat } from './run-heat.js';
export {
  type FittedContacts,
  type OwnSpreads,
  quantile,
  type Spreads,
  usualSpreads,
} from './sample-factors.js';
export { type SampleRequest, sampleRun, type World } from './sample-run.js';
export { firstReaches, valueAt } from './series.js';
export { type StartRecipe, type StartRecipeRequest, startRecipe } from './start-recipe.js';
export { secondsAbove, touchThresholds } from './touch.js';
export type {
  Course,
  EnergyAccount,
  Geometry,
  HeatLayer,
  HeatOptions,
  HeatResult,
  HeatRun,
  Material,
  Phase,
  PhaseSpan,
  Platen,
  Probe,
  Side,
  StackProfile,
} from './types.js';
