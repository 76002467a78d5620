export { type Ground, groundAt } from './light-field.js';
export { distinctColours } from './likes.js';
export { type PatchValue, patchValue } from './patch-value.js';
export { lightOfPixel, luminance, srgbCurve } from './picture.js';
export { readChart } from './read-chart.js';
export { type EvennessCell, type EvennessReading, readEvenness } from './read-evenness.js';
export { spoiling, warningSentences } from './remarks.js';
export { derivativeAt, pixelsPerMm } from './sheet-map.js';
export type * from './types.js';
