export { closeBenchThreads } from './bench-threads.js';
export { type EvennessPictureSaid, EvennessReadings } from './evenness-readings.js';
export { type LadderPictureSaid, Ladders } from './ladders.js';
