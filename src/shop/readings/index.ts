export type { CardGiven } from './choose-map.js';
export type { KeptReading } from './kept-reading.js';
export { patchName } from './patch-name.js';
export type { ReadAbout } from './read-about.js';
export { type PictureParts, type ReadOptions, readPicture } from './read-picture.js';
export type { ReadResult } from './read-result.js';
export { cgatsOf } from './reading-table.js';
export { type FileAbout, Readings, type ReadingsParts } from './readings.js';
