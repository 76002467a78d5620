import { type FoundMarker, type GreyPicture, refineSquare } from '#craft/reading';
import { cornerMarkerIds } from '#craft/sheet';
import { flipped } from './grey.js';
import type { OpenCv } from './open-cv.js';

/** Two pixels a cell. */
const leastSidePixels = 12;

const ours = new Set<number>(Object.values(cornerMarkerIds));

/**
 * Our corner markers in a picture, `mirrored`: as seen in a mirror. Corners come in the marker's own order as it
 * reads, in the coordinates of `picture` (0 at the edge of the first pixel).
 */
export function findMarkers(cv: OpenCv, picture: GreyPicture, mirrored: boolean): FoundMarker[] {
  const seen = mirrored ? flipped(picture) : picture;
  const mat = new cv.Mat(seen.height, seen.width, cv.CV_8UC1);
  mat.data.set(seen.data);
  const dictionary = cv.getPredefinedDictionary(cv.DICT_4X4_50);
  const parameters = new cv.aruco_DetectorParameters();
  // Windows from small to about a marker's cell; a photograph's light changes over the sheet.
  parameters.adaptiveThreshWinSizeMin = 5;
  parameters.adaptiveThreshWinSizeMax = 45;
  parameters.adaptiveThreshWinSizeStep = 10;
  // Smaller ones are found in the larger pictures; here they would only be grain, and grain takes minutes.
  parameters.minMarkerPerimeterRate = Math.min(
    0.1,
    (4 * leastSidePixels) / Math.max(seen.width, seen.height),
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
    const found: FoundMarker[] = [];
    for (let i = 0; i < corners.size(); i += 1) {
      const id = ids.data32S[i] ?? -1;
      const four = corners.get(i);
      const xy = Array.from(four.data32F.subarray(0, 8));
      four.delete();
      if (!ours.has(id)) continue;
      // OpenCV puts 0 on the first pixel's centre; half a pixel leads to its edge.
      const points = [0, 1, 2, 3].map((k) => {
        const x = xy[2 * k]! + 0.5;
        return { x: mirrored ? picture.width - x : x, y: xy[2 * k + 1]! + 0.5 };
      });
      found.push({ id, corners: points });
    }
    return found;
  } finally {
    for (const one of [mat, dictionary, parameters, refine, detector, corners, rejected, ids]) one.delete();
  }
}

/** Markers found in a smaller picture, put on the full one and sharpened there. */
export function onFullPicture(
  full: GreyPicture,
  markers: readonly FoundMarker[],
  factor: number,
): FoundMarker[] {
  return markers.map(({ id, corners }) => {
    const rough = corners.map(({ x, y }) => ({ x: x * factor, y: y * factor }));
    return { id, corners: refineSquare(full, rough) ?? rough };
  });
}
