export * from './blanks.js';
export * from './figures.js';
