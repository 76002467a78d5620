export { type ArtworkLimits, ArtworkShelf, type DrawableArtwork } from './artwork.js';
export { displayFileName } from './file-name.js';
export { limitBytes } from './limit-bytes.js';
