export { distinctColours } from './likes.js';
export { srgbCurve } from './picture.js';
export { readChart } from './read-chart.js';
export { warningSentences } from './remarks.js';
export type * from './types.js';
