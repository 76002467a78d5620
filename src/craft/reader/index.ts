export { cardReaderMap } from './card-map.js';
export { type FitReaderOptions, fitReaderMap } from './fit-reader-map.js';
export { type GridTarget, gridTargetOf } from './grid-target.js';
export { makeReaderMap } from './make-reader-map.js';
export { type ReadTarget, readGridTarget } from './read-grid-target.js';
export { type TagMapOptions, tagReaderMap, tagToXyz } from './tag-map.js';
export type * from './types.js';
