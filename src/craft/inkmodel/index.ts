export { adaptInkModel, type FitOptions, fitInkModel } from './fit-ink-model.js';
export type { GamutMesh } from './gamut.js';
export { type InkInverse, type InverseAnswer, type MapIntent, makeInverse } from './inverse.js';
export { makeInkModel } from './model.js';
export { type InkProfileOptions, inkProfile } from './profile.js';
export { readInkModelData } from './read-data.js';
export type {
  ChannelParameters,
  InkModel,
  InkModelData,
  InkPrediction,
  KernelParameters,
  OutlierPatch,
} from './types.js';
