import type { GreyPicture } from '#craft/reading';
import {
  type FourPlaces,
  findCylinder,
  fitFlat,
  greyThrough,
  type Refined,
  type RefineLevel,
  refineMap,
  resizedMap,
  type SurfaceMap,
} from '#craft/register';
import type { OpenCv } from './open-cv.js';
import { type Features, featuresOf, findFlat, matchFeatures } from './register-features.js';

/** What the piece is, as far as it is known; `unknown` tries both. */
export type PieceSurface =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'flat' }
  /** The angle that the artwork's width goes round, when diameter and width are known. */
  | { readonly kind: 'cylinder'; readonly radiansAcross: number | null };

/** Artwork and photo in grey at several sizes, each pixel a mean of those it stands for. */
export interface GreySizes {
  /** Long side of the artwork in pixels → its grey; `mirrored` is left for right. */
  readonly artwork: ReadonlyMap<number, GreyPicture>;
  readonly mirrored: ReadonlyMap<number, GreyPicture>;
  /** The photo about as fine as the artwork's largest, and made for features. */
  readonly photo: GreyPicture;
}

export interface Candidate {
  /** From pixels of the artwork's largest grey to those of the photo's grey. */
  readonly map: SurfaceMap;
  readonly isReversed: boolean;
  readonly inliers: number;
  readonly refined: Refined;
}

/** Of matches at about a thousand pixels: a print is not drawn more truly than this on a bent shirt. */
const nearPixels = 4;
/** Fewer agree by chance; measured on pieces laid over other artwork. */
export const fewestInliers = 14;

export const artworkSizes = [200, 400, 800] as const;

/** How artwork and photo may lie over each other, the best first; empty when features agree in no way. */
export function candidatesByFeatures(cv: OpenCv, sizes: GreySizes, surface: PieceSurface): Candidate[] {
  const photo = featuresOf(cv, sizes.photo);
  const found: Candidate[] = [];
  try {
    for (const isReversed of [false, true]) {
      const candidate = oneWay(cv, sizes, surface, photo, isReversed);
      if (candidate) found.push(candidate);
      // Good enough that the mirrored artwork cannot be better.
      if (candidate && candidate.inliers >= 30 && candidate.refined.agreement > 0.6) break;
    }
  } finally {
    photo.delete();
  }
  return found.sort((a, b) => b.refined.agreement - a.refined.agreement);
}

function oneWay(
  cv: OpenCv,
  sizes: GreySizes,
  surface: PieceSurface,
  photo: Features,
  isReversed: boolean,
): Candidate | null {
  const artwork = (isReversed ? sizes.mirrored : sizes.artwork).get(800)!;
  const own = featuresOf(cv, artwork);
  const matches = matchFeatures(cv, own, photo);
  own.delete();
  const angle = surface.kind === 'cylinder' ? surface.radiansAcross : null;
  const tried = (one: ReturnType<typeof findFlat>): Candidate | null => {
    if (!one || one.inliers.length < fewestInliers) return null;
    const refined = refined3(sizes, one.map, isReversed, angle !== null);
    return { map: refined.map, isReversed, inliers: one.inliers.length, refined };
  };
  const flat = surface.kind === 'cylinder' ? null : tried(findFlat(cv, matches, nearPixels));
  if (surface.kind === 'flat' || (flat && flat.refined.agreement > flatEnough)) return flat;
  const angles = angle === null ? ([0.5, 5.8] as const) : ([angle, angle] as const);
  const round = tried(findCylinder(matches, artwork.width, angles, nearPixels));
  if (!flat || !round) return flat ?? round;
  // A cylinder has more freedom: it must agree clearly better.
  const gain = round.refined.agreement - flat.refined.agreement;
  return gain > 0.05 ? round : flat;
}

/** A plane that agrees this well needs no cylinder tried. */
const flatEnough = 0.85;

/** From four corners that a person gave, in pixels of the photo's grey; both ways round, the better first. */
export function candidatesByCorners(sizes: GreySizes, corners: FourPlaces): Candidate[] {
  const { width, height } = sizes.artwork.get(800)!;
  const own = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ];
  const map = fitFlat(own.map((from, i) => ({ from, to: corners[i]! })));
  if (!map) return [];
  return [false, true]
    .map((isReversed): Candidate => {
      const refined = refined3(sizes, map, isReversed, false);
      return { map: refined.map, isReversed, inliers: 0, refined };
    })
    .sort((a, b) => b.refined.agreement - a.refined.agreement);
}

/** Refined from coarse to fine, the photo made as coarse as the artwork. */
function refined3(sizes: GreySizes, start: SurfaceMap, isReversed: boolean, isAngleKnown: boolean): Refined {
  const largest = artworkSizes[artworkSizes.length - 1]!;
  let map = start;
  let refined: Refined | null = null;
  for (const size of artworkSizes) {
    const artwork = (isReversed ? sizes.mirrored : sizes.artwork).get(size)!;
    const share = size / largest;
    const factor = Math.max(1, Math.round(1 / share / 1.4));
    const photo = coarser(sizes.photo, factor);
    const toPhoto = 1 / factor;
    const level: RefineLevel = {
      artwork: soft(artwork),
      see: (at) => {
        const seen = greyThrough(photo, at, artwork.width, artwork.height);
        return { ...seen, photo: soft(seen.photo) };
      },
      blockPixels: size === 200 ? 24 : 36,
      mostShift: size === 200 ? 6 : 5,
      rounds: size === largest ? 2 : 3,
    };
    refined = refineMap(resizedMap(map, share, toPhoto), level, isAngleKnown);
    map = resizedMap(refined.map, 1 / share, 1 / toPhoto);
  }
  return { ...refined!, map };
}

/** A small blur of both alike, so that neither edge nor grain decides. */
function soft({
  width,
  height,
  data,
}: {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Float32Array;
}): { width: number; height: number; data: Float32Array } {
  const across = new Float32Array(data.length);
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1) {
    const row = y * width;
    for (let x = 0; x < width; x += 1) {
      const left = data[row + Math.max(0, x - 1)]!;
      const right = data[row + Math.min(width - 1, x + 1)]!;
      across[row + x] = (left + 2 * data[row + x]! + right) / 4;
    }
  }
  for (let y = 0; y < height; y += 1) {
    const [up, row, down] = [Math.max(0, y - 1) * width, y * width, Math.min(height - 1, y + 1) * width];
    for (let x = 0; x < width; x += 1) {
      out[row + x] = (across[up + x]! + 2 * across[row + x]! + across[down + x]!) / 4;
    }
  }
  return { width, height, data: out };
}

function coarser(picture: GreyPicture, factor: number): GreyPicture {
  if (factor <= 1) return picture;
  const width = Math.floor(picture.width / factor);
  const height = Math.floor(picture.height / factor);
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      let sum = 0;
      for (let j = 0; j < factor; j += 1) {
        const at = (y * factor + j) * picture.width + x * factor;
        for (let i = 0; i < factor; i += 1) sum += picture.data[at + i]!;
      }
      data[y * width + x] = Math.round(sum / (factor * factor));
    }
  }
  return { width, height, data };
}
