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
export { colourSheetOfCode, mostPatches, planColourSheet } from './plan-colour-sheet.js';
export { planGreySheet } from './plan-grey-sheet.js';
export { planPaletteSheet } from './plan-palette-sheet.js';
export type * from './types.js';
