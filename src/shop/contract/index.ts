export * from './artwork.js';
export * from './blanks.js';
export * from './jobs.js';
export * from './path-measurement.js';
export * from './readback.js';
export * from './setups.js';
export * from './sheets.js';
