import type { GreyPicture } from '#craft/reading';
import type { MatchedPlace, SurfaceMap } from '#craft/register';
import type { Mat, OpenCv } from './open-cv.js';

interface KeyPoints {
  size(): number;
  get(index: number): { readonly pt: { readonly x: number; readonly y: number } };
  delete(): void;
}
interface Match {
  readonly queryIdx: number;
  readonly trainIdx: number;
  readonly distance: number;
}
interface MatchLists {
  size(): number;
  get(index: number): { size(): number; get(index: number): Match; delete(): void };
  delete(): void;
}
/** The parts of OpenCV for features: cv::ORB, cv::BFMatcher, cv::findHomography. */
interface FeatureCv extends OpenCv {
  ORB: new (
    most: number,
    scaleFactor: number,
    levels: number,
    edge: number,
    first: number,
    pointsCompared: number,
    score: number,
    patch: number,
    fastThreshold: number,
  ) => {
    detectAndCompute(picture: Mat, mask: Mat, points: KeyPoints, descriptors: Mat): void;
    delete(): void;
  };
  KeyPointVector: new () => KeyPoints;
  DMatchVectorVector: new () => MatchLists;
  BFMatcher: new (
    norm: number,
    crossCheck: boolean,
  ) => { knnMatch(query: Mat, train: Mat, into: MatchLists, k: number): void; delete(): void };
  findHomography(
    from: Mat,
    to: Mat,
    method: number,
    near: number,
    mask: Mat,
    rounds: number,
    confidence: number,
  ): Mat;
  readonly NORM_HAMMING: number;
  readonly USAC_MAGSAC: number;
  readonly CV_32FC2: number;
}

/** Points of a picture and what each looks like; free with `delete`. */
export interface Features {
  readonly places: readonly { readonly x: number; readonly y: number }[];
  readonly descriptors: Mat;
  delete(): void;
}

/** More would tell little more and cost their square in matching. */
const mostFeatures = 2000;

/** ORB (Rublee, Rabaud, Konolige & Bradski, ICCV 2011) over nine octave steps of 1.2. */
export function featuresOf(plain: OpenCv, { width, height, data }: GreyPicture): Features {
  const cv = plain as FeatureCv;
  const picture = new cv.Mat(height, width, cv.CV_8UC1);
  const noMask = new cv.Mat();
  const points = new cv.KeyPointVector();
  const descriptors = new cv.Mat();
  const orb = new cv.ORB(mostFeatures, 1.2, 9, 20, 0, 2, 0, 31, 10);
  try {
    picture.data.set(data);
    orb.detectAndCompute(picture, noMask, points, descriptors);
    const places = Array.from({ length: points.size() }, (_, i) => {
      const { x, y } = points.get(i).pt;
      return { x: x + 0.5, y: y + 0.5 };
    });
    return { places, descriptors, delete: () => descriptors.delete() };
  } finally {
    for (const made of [picture, noMask, points, orb]) made.delete();
  }
}

/** Places that look alike in both, each clearly more like its match than like the next best; the clearest first. */
export function matchFeatures(plain: OpenCv, artwork: Features, photo: Features): MatchedPlace[] {
  const cv = plain as FeatureCv;
  if (artwork.places.length < 8 || photo.places.length < 8) return [];
  const matcher = new cv.BFMatcher(cv.NORM_HAMMING, false);
  const lists = new cv.DMatchVectorVector();
  try {
    matcher.knnMatch(artwork.descriptors, photo.descriptors, lists, 2);
    const found: { readonly match: MatchedPlace; readonly ratio: number }[] = [];
    for (let i = 0; i < lists.size(); i += 1) {
      const pair = lists.get(i);
      if (pair.size() === 2) {
        const [best, next] = [pair.get(0), pair.get(1)];
        if (best.distance < 0.85 * next.distance && best.distance < 80) {
          found.push({
            match: { from: artwork.places[best.queryIdx]!, to: photo.places[best.trainIdx]! },
            ratio: best.distance / Math.max(1, next.distance),
          });
        }
      }
      pair.delete();
    }
    return found.sort((a, b) => a.ratio - b.ratio).map(({ match }) => match);
  } finally {
    matcher.delete();
    lists.delete();
  }
}

/** A plane through as many matches as can be (MAGSAC++, Barath et al., CVPR 2020). */
export function findFlat(
  plain: OpenCv,
  matches: readonly MatchedPlace[],
  nearPixels: number,
): { readonly map: SurfaceMap; readonly inliers: readonly MatchedPlace[] } | null {
  const cv = plain as FeatureCv;
  if (matches.length < 8) return null;
  const from = new cv.Mat(matches.length, 1, cv.CV_32FC2);
  const to = new cv.Mat(matches.length, 1, cv.CV_32FC2);
  const mask = new cv.Mat();
  let found: Mat | null = null;
  try {
    matches.forEach((match, i) => {
      from.data32F.set([match.from.x, match.from.y], 2 * i);
      to.data32F.set([match.to.x, match.to.y], 2 * i);
    });
    found = cv.findHomography(from, to, cv.USAC_MAGSAC, nearPixels, mask, 3000, 0.999);
    if (found.rows !== 3) return null;
    const matrix = Array.from((found as Mat & { readonly data64F: Float64Array }).data64F);
    const inliers = matches.filter((_, i) => mask.data[i] === 1);
    return { map: { kind: 'flat', matrix }, inliers };
  } finally {
    for (const made of [from, to, mask, found]) made?.delete();
  }
}
