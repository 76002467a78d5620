export { type Camera, photograph } from './camera.js';
export { type Chance, chanceOf } from './chance.js';
export { blurred, warped } from './optics.js';
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
export { type Driver, drive, type Ink, ink, type Pressing, press } from './print.js';
export { type Scanner, scan } from './scanner.js';
export { writeMarks } from './write-marks.js';
