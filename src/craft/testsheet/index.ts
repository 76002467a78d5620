export { patchSizes } from './cell-grid.js';
export { type ChosenPatch, choosePatches, type PatchPurpose, patchCountLimits } from './choose-patches.js';
export {
  type ColourSheetRecipe,
  colourSheetCounts,
  colourSheetId,
  colourSheetRecipe,
  largestColourSheetSeed,
} from './colour-sheet-id.js';
export { colourSheetOfCode, planColourSheet } from './plan-colour-sheet.js';
export type * from './types.js';
