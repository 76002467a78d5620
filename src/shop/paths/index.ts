export { ColourPaths } from './paths.js';
