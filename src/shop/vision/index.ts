export { writtenByCamera } from './camera-tags.js';
export { type ChartOverlay, chartOverlay, type OverlayOptions } from './chart-overlay.js';
export { type OpenedChart, openChartPicture } from './open-chart-picture.js';
export { closeVision } from './pool.js';
export { type ReadChart, type ReadChartOptions, readChartPicture } from './read-chart-picture.js';
export {
  type ReadCoupons,
  type ReadCouponsOptions,
  readCouponsPicture,
  readEvennessPicture,
} from './read-press-picture.js';
export type { CouponInPicture, CouponSize } from './read-press-pixels.js';
export { type ReadPictureOptions, readSheetPicture } from './read-sheet-picture.js';
export { refuseCoupons } from './refuse-coupons.js';
export { type RegisterOptions, registerPhoto } from './register-picture.js';
