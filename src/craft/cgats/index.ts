export type { DeviceFull } from './device-range.js';
export { type ReadMeasurementsOptions, readMeasurements } from './read-measurements.js';
export {
  type ReadingFacts,
  readingKeywords,
  type StatedGrade,
  statedGrade,
  statedSheetId,
} from './reading-keywords.js';
export { reflectanceToXyz } from './spectra.js';
export type * from './types.js';
export { type WriteCgatsOptions, writeCgats } from './write-cgats.js';
