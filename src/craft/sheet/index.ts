export { type Corner, cornerMark, cornerMarkerCells, cornerMarkerIds, markerCells } from './aruco.js';
export {
  type CheckCode,
  checkSheet,
  type SheetCheck,
  type SheetUnderCheck,
  type SmallPicture,
  standingSentence,
} from './checks/index.js';
export {
  type FrameOrder,
  frameOfCode,
  liveAreas,
  type NoFrame,
  type PlannedFrame,
  planFrame,
  planFrames,
} from './frame.js';
export {
  type FrameVariant,
  frameVariants,
  largeFrameVariants,
  markerSizeMm,
  qrGapInMarkers,
  qrSizeInMarkers,
} from './frame-variant.js';
export { layOutSheet, type SheetLayout } from './layout.js';
export { textMarks, wordsFor } from './mark-text.js';
export type { SheetOrder, SheetPaper } from './order.js';
export {
  asFreePlacement,
  effectivePpi,
  freeWidthAtScaleOneMm,
  type PixelSize,
  type PlacementChoice,
  placeArtwork,
} from './placing.js';
export type * from './plan.js';
export { qrMark, qrModules, readSheetCode, type SheetCode, writeSheetCode } from './qr.js';
export { routePatches } from './route-strip.js';
export {
  isSheetId,
  newSheetId,
  parseSheetId,
  sheetIdBytes,
  sheetIdLength,
  spokenSheetId,
} from './sheet-id.js';
