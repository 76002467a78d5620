export { AskToRemove } from '../frame/index.js';
