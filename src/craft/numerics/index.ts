export {
  choleskyInPlace,
  inverseFromCholesky,
  invertLowerInPlace,
  solveCholesky,
  solveLower,
  solveLowerTransposed,
} from './cholesky.js';
export { type MinimiseOptions, type MinimiseResult, minimise } from './minimise.js';
export { createRandom, type Random } from './random.js';
