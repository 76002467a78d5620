export { type ExpectedError, expectedError } from './expected-error.js';
export { adaptInkModel, type FitOptions, fitInkModel } from './fit-ink-model.js';
export { chooseFollowUp, type FollowUpChoice } from './follow-up.js';
export type { GamutMesh } from './gamut.js';
export { type GamutFacts, gamutFacts } from './gamut-facts.js';
export { type InkInverse, type InverseAnswer, type MapIntent, makeInverse } from './inverse.js';
export { joinSheets, type SheetShift } from './join-sheets.js';
export { makeInkModel } from './model.js';
export { type InkProfileOptions, inkProfile } from './profile.js';
export { mostBases, readInkModelData } from './read-data.js';
export type {
  ChannelParameters,
  ColourModel,
  InkModel,
  InkModelData,
  InkPrediction,
  KernelParameters,
  OutlierPatch,
} from './types.js';
export { unexplainedShare } from './unexplained-share.js';
