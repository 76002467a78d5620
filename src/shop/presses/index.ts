export { assertPressMakesSense } from './check-press.js';
export { Presses, type PressOffset } from './presses.js';
