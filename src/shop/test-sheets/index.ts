export { type DrawTask, drawTestSheetFile } from './draw-test-sheet.js';
export type { ColourField, KeptLadder, KeptPlan, WantedColour } from './kept-plan.js';
export type { TestSheetPreview, TestSheetView } from './preview-test-sheet.js';
export { type TestSheetParts, TestSheets } from './test-sheets.js';
