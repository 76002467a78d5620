export { genericCmykProfile } from './artwork/generic-cmyk.js';
export { pictureForScreen } from './artwork/picture-for-screen.js';
export { probeArtwork } from './artwork/probe.js';
export { convertImage } from './convert-image.js';
export { renderPreview, samplePiece } from './preview.js';
export { makeSheetFile } from './sheet-file.js';
export { writeTicket } from './ticket/ticket.js';
export type * from './types.js';
