export { evennessMap } from './evenness-map.js';
export { platenTruth } from './platen-truth.js';
export { sinceWords } from './since-words.js';
export { splitUnevenness } from './split-unevenness.js';
export type * from './types.js';
export { wrapSides } from './where.js';
