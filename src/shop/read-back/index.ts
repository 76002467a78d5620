export { readBack } from './read-back.js';
