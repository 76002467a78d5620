import { type FoundMarker, type GreyPicture, type Point, refineSquare } from '#craft/reading';
import { cornerDictionary, cornerPatterns } from './corner-dictionary.js';
import type { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';

/** Two pixels a cell. */
const leastSidePixels = 12;

/** Windows of the local threshold, from small to about a marker's cell; a photograph's light changes over the sheet. */
const windows = {
  quick: { from: 13, to: 33, step: 20 },
  thorough: { from: 5, to: 45, step: 10 },
} as const;

export interface SeenMarkers {
  readonly plain: readonly FoundMarker[];
  /** Those that are seen as in a mirror. */
  readonly mirrored: readonly FoundMarker[];
}

/**
 * Our corner markers in a picture. Corners come in the marker's own order as it reads, in the coordinates of `picture`
 * (0 at the edge of the first pixel).
 */
export function findMarkers(cv: OpenCv, picture: GreyPicture, care: keyof typeof windows): SeenMarkers {
  const mat = new cv.Mat(picture.height, picture.width, cv.CV_8UC1);
  mat.data.set(picture.data);
  const dictionary = cornerDictionary(cv);
  const parameters = new cv.aruco_DetectorParameters();
  parameters.adaptiveThreshWinSizeMin = windows[care].from;
  parameters.adaptiveThreshWinSizeMax = windows[care].to;
  parameters.adaptiveThreshWinSizeStep = windows[care].step;
  // Smaller ones are found in the larger pictures; here they would only be grain, and grain takes minutes.
  parameters.minMarkerPerimeterRate = Math.min(
    0.1,
    (4 * leastSidePixels) / Math.max(picture.width, picture.height),
  );
  parameters.polygonalApproxAccuracyRate = 0.05;
  parameters.minDistanceToBorder = 1;
  parameters.perspectiveRemovePixelPerCell = 8;
  const refine = new cv.aruco_RefineParameters(10, 3, true);
  const detector = new cv.aruco_ArucoDetector(dictionary, parameters, refine);
  const corners = new cv.MatVector();
  const rejected = new cv.MatVector();
  const ids = new cv.Mat();
  try {
    detector.detectMarkers(mat, corners, ids, rejected);
    const plain: FoundMarker[] = [];
    const mirrored: FoundMarker[] = [];
    for (let i = 0; i < corners.size(); i += 1) {
      const pattern = cornerPatterns[ids.data32S[i] ?? -1];
      const four = corners.get(i);
      const xy = Array.from(four.data32F.subarray(0, 8));
      four.delete();
      if (!pattern) continue;
      // What is top left in the mirror is the marker's own top right.
      const order = pattern.mirrored ? [1, 0, 3, 2] : [0, 1, 2, 3];
      // OpenCV puts 0 on the first pixel's centre; half a pixel leads to its edge.
      const points = order.map((k) => ({ x: xy[2 * k]! + 0.5, y: xy[2 * k + 1]! + 0.5 }));
      (pattern.mirrored ? mirrored : plain).push({ id: pattern.id, corners: points });
    }
    return { plain, mirrored };
  } finally {
    for (const one of [mat, dictionary, parameters, refine, detector, corners, rejected, ids]) one.delete();
  }
}

/** White looked at round a marker when it is sharpened, in shares of its side. */
const round = 0.45;

/** Markers found in a smaller picture, put on the full one and sharpened there. */
export function onFullPicture(
  full: GreySource,
  markers: readonly FoundMarker[],
  factor: number,
): FoundMarker[] {
  return markers.map(({ id, corners }) => {
    const rough = corners.map(({ x, y }) => ({ x: x * factor, y: y * factor }));
    const xs = rough.map(({ x }) => x);
    const ys = rough.map(({ y }) => y);
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const more = round * Math.max(right - left, bottom - top) + 4;
    const part = full.window(left - more, top - more, right + more, bottom + more);
    const fine = refineSquare(part.grey, rough.map(movedBy(-part.left, -part.top)));
    return { id, corners: fine ? fine.map(movedBy(part.left, part.top)) : rough };
  });
}

const movedBy =
  (dx: number, dy: number) =>
  ({ x, y }: Point): Point => ({ x: x + dx, y: y + dy });
