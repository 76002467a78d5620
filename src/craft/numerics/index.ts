export {
  choleskyInPlace,
  inverseFromCholesky,
  invertLowerInPlace,
  solveCholesky,
  solveLower,
  solveLowerTransposed,
} from './cholesky.js';
export { type LeastSquares, leastSquares } from './least-squares.js';
export { type MinimiseOptions, type MinimiseResult, minimise } from './minimise.js';
export { logNormalCdf, normalCdf, normalDensity } from './normal.js';
export { median, quantile } from './order-statistics.js';
export { createRandom, type Random } from './random.js';
export { type RobustFit, type RobustOptions, robustLeastSquares } from './robust-least-squares.js';
