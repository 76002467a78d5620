export { logNormalCdf, normalCdf, normalDensity } from '#craft/numerics';
