export { type ReaderCalibration, Readers, type ReadersParts, type TargetPicture } from './readers.js';
