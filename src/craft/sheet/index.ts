export {
  type CheckCode,
  checkSheet,
  type SheetCheck,
  type SheetUnderCheck,
  type SmallPicture,
  standingSentence,
} from './checks/index.js';
export { layOutSheet, type SheetLayout, type SheetOrder, type SheetPaper } from './layout.js';
export {
  asFreePlacement,
  effectivePpi,
  freeWidthAtScaleOneMm,
  type PixelSize,
  type PlacementChoice,
  placeArtwork,
} from './placing.js';
export type * from './plan.js';
