export {
  colourQuestions,
  deviceQuestions,
  type InvertedRow,
  invertColours,
  type PredictedRow,
  type Prediction,
  predictColours,
  type Questions,
} from './ask-path.js';
export type { EyeJudgement } from './eye-path.js';
export { inkModelJson, inkModelOf } from './ink-model-file.js';
export { inkSource, type LearntPath, type PathWorkOptions, profileOf } from './learn-path.js';
export { type MeasuredSource, sourceOfFile } from './measured-source.js';
export { maxMeasurementBytes, measurementsOf } from './measurements-of.js';
export type { CheckPatch, FollowUpOptions, PaletteSwatch } from './path-answers.js';
export { closePathThreads } from './path-threads.js';
export {
  type BuildPathOptions,
  ColourPaths,
  learnFrom,
} from './paths.js';
