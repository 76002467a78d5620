export { closeReaderThreads } from './learn-threads.js';
export { type ReaderCalibration, Readers, type ReadersParts, type TargetPicture } from './readers.js';
