export { type LeastSquares, leastSquares } from '#craft/numerics';
