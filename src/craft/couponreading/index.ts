export { readCoupon } from './read-coupon.js';
export { measureEdge, type NoEdge, type SlantedEdge } from './slanted-edge.js';
export type * from './types.js';
