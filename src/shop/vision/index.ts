export { closeVision } from './pool.js';
export { type ReadPictureOptions, readSheetPicture } from './read-sheet-picture.js';
