export { codeTemplate, readCodeGrid } from './code-grid.js';
export {
  areaFactor,
  fitAffine,
  fitHomography,
  mapPoint,
  type PlaneMap,
  type Point,
  type PointPair,
} from './plane.js';
export { type FoundMarker, poseOfSheet, type SheetPose } from './pose.js';
export { type GreyPicture, greyAt, refineSquare } from './refine-square.js';
export { measureSize, type PictureFacts, type SizeReading, trustedPpi } from './size.js';
export { type RgbPicture, readRouteStrip, type SeenPatch } from './strip.js';
export { type Evidence, judge, type ReadSubject, type SheetReading } from './verdict.js';
