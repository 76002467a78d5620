export { adaptInkModel, type FitOptions, fitInkModel } from './fit-ink-model.js';
export { makeInkModel } from './model.js';
export type {
  ChannelParameters,
  InkModel,
  InkModelData,
  InkPrediction,
  KernelParameters,
  OutlierPatch,
} from './types.js';
