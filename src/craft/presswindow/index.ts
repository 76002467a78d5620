export { type BlackVerdict, blackVerdict } from './black-verdict.js';
export { checkStep, couponCounts } from './check-coupons.js';
export { fitLadder, type LadderDraw, type LadderFit, type LadderOptions } from './fit-ladder.js';
export { isSure } from './is-sure.js';
export { fitOf, type KeptFit, keptFit } from './kept-fit.js';
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
export { type WindowCourse, windowCourses } from './window-courses.js';
export { type FieldAxes, type WindowField, windowField } from './window-field.js';
