export { distinctColours } from './likes.js';
export { lightOfPixel, luminance, srgbCurve } from './picture.js';
export { readChart } from './read-chart.js';
export { warningSentences } from './remarks.js';
export type * from './types.js';
