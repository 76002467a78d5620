export * from './blanks.js';
export * from './figures.js';
export * from './grades.js';
