export { patchSizes } from './cell-grid.js';
export { choosePalette } from './choose-palette.js';
export { type ChosenPatch, choosePatches, type PatchPurpose, patchCountLimits } from './choose-patches.js';
export {
  type ColourSheetRecipe,
  colourSheetCounts,
  colourSheetId,
  colourSheetRecipe,
  largestColourSheetSeed,
} from './colour-sheet-id.js';
export { type CouponCode, readCouponCode, writeCouponCode } from './coupon-code.js';
export { couponLayout, leastCouponMm, mostCouponMm } from './coupon-layout.js';
export { mostCoupons, numberCells, numberOfCells, numberWord } from './coupon-number.js';
export type * from './health-sheet-types.js';
export { colourSheetOfCode, mostPatches, planColourSheet } from './plan-colour-sheet.js';
export { planEvennessSheet } from './plan-evenness-sheet.js';
export { planGreySheet } from './plan-grey-sheet.js';
export { planHealthSheet } from './plan-health-sheet.js';
export { couponGrid, planLadderSheet } from './plan-ladder-sheet.js';
export { planPaletteSheet } from './plan-palette-sheet.js';
export type * from './press-sheet-types.js';
export type * from './types.js';
