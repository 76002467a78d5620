export { type Camera, photograph, placeInPhotograph } from './camera.js';
export { withCardBeside } from './card-beside.js';
export { type Chance, chanceOf } from './chance.js';
export { type FaultyPhoto, faultyPhoto, type Piece } from './faulty-piece.js';
export { halftoneWithSpectra } from './halftone-spectra.js';
export { measuredOnPiece } from './measured-on-piece.js';
export { blurred, smaller, warped } from './optics.js';
export {
  type ArtworkName,
  artworkOf,
  drawings,
  heldOutPhotographs,
  photographs,
  sourceOf,
} from './photographs.js';
export {
  blank,
  type Encoding,
  encode,
  fromBytes,
  type Picture,
  toBytes,
  toFile,
  writtenSheet,
} from './picture.js';
export type { PieceFault } from './piece-faults.js';
export { cutCoupon, scanOfCoupons } from './pressed-coupons.js';
export { type PressedAt, pressedAt, pressedSheet } from './pressed-sheet.js';
export { type Driver, drive, type Ink, ink, type Pressing, press } from './print.js';
export { fileOfReader, flatbed } from './reader-picture.js';
export { type Scanner, scan } from './scanner.js';
export { lightOfPiece, unevenPress } from './spectral-piece.js';
export { barAt, celsiusAt, type UnevenPlaten, usualPlaten } from './uneven-platen.js';
export { virtualReader } from './virtual-reader.js';
export { writeMarks } from './write-marks.js';
