export { type DevelopOptions, developBlank, usualPaperThicknessMm } from './develop.js';
export { distanceInsideMm, grownOutline, insideOutline, outlinePolygon, type PointMm } from './edge.js';
export { checkShape } from './shape.js';
export type * from './types.js';
