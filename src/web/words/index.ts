export * from './blanks.js';
export * from './differences.js';
export * from './estimates.js';
export * from './figures.js';
export * from './grades.js';
export * from './in-degrees.js';
export * from './lines.js';
export * from './presses.js';
