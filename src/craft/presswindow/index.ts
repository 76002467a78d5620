export { type BlackVerdict, blackVerdict } from './black-verdict.js';
export { checkStep, couponCounts } from './check-coupons.js';
export { fitLadder, type LadderDraw, type LadderFit, type LadderOptions } from './fit-ladder.js';
export { activationPrior, type DoseLaw, logDose, pressureExponentPrior, type WarmUp } from './kinetics.js';
export { type NextCoupon, nextCoupons } from './next-coupon.js';
export { type LadderPlan, type LadderRequest, type PlannedCoupon, planLadder } from './plan-ladder.js';
export { type PressWindow, pressWindow } from './press-window.js';
export { type QuadraticSurface, quadraticSurface } from './quadratic-surface.js';
export { acrossBrown, brownHueDegrees, type ResponseId, towardsBrown } from './responses.js';
export type * from './types.js';
export {
  usualRules,
  type ValueCourses,
  type WindowPlace,
  type WindowRules,
  type WorldWindow,
  windowOf,
} from './window.js';
