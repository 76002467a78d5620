import { srgbToLinear } from '#craft/colour';
import {
  type AlignedPair,
  divideLighting,
  type FourPlaces,
  fitLighting,
  lightThrough,
  placeInPhoto,
  resizedMap,
  type SurfaceMap,
  stretchAt,
} from '#craft/register';
import type { OpenCv } from './open-cv.js';
import {
  artworkSizes,
  type Candidate,
  candidatesByCorners,
  candidatesByFeatures,
  type GreySizes,
  type PieceSurface,
} from './register-candidates.js';
import { refuseEmptyArtwork, refuseEmptyPhoto, unmatched } from './register-refusals.js';
import type { RgbBytes } from './register-sizes.js';
import { colourOfSize, lumaOf, mirroredGrey, sizeOf } from './register-sizes.js';

export interface RegisterTask {
  readonly artworkWidthMm: number | null;
  /** Of a mug; its artwork's width must be known too for this to help. */
  readonly diameterMm: number | null;
  readonly surface: 'unknown' | 'flat' | 'cylinder';
  /** Corners of the artwork in the photo (upright, full size), when a person gave them. */
  readonly corners: FourPlaces | null;
  /** Long side of the pair. */
  readonly longSidePixels: number;
}

/** Less of the textured blocks agreeing than this is no agreement: other artwork stays far below it. */
const leastAgreement = 0.3;
const fewestBlocks = 8;
/** Median shift left, in pixels of the artwork at a long side of 800. */
const mostResidual = 1.5;
const photoGreySide = 1100;

const toLinear = Float32Array.from({ length: 256 }, (_, byte) => srgbToLinear(byte / 255));

/**
 * Lay a photo over its artwork.
 * @param photoScale pixels of `photo` per pixel of the upright file
 * @throws Problem `scan.unclear`, `photo.unmatched`
 */
export async function registerPixels(
  cv: OpenCv,
  artwork: RgbBytes,
  photo: RgbBytes,
  photoScale: number,
  task: RegisterTask,
): Promise<AlignedPair> {
  const sizes = await greySizes(artwork, photo);
  refuseEmptyPhoto(photo, sizes.photo);
  refuseEmptyArtwork(sizes.artwork.get(800)!);
  const toGrey = sizes.photo.width / photo.width;
  const candidates = task.corners
    ? candidatesByCorners(
        sizes,
        task.corners.map(({ x, y }) => ({
          x: x * photoScale * toGrey,
          y: y * photoScale * toGrey,
        })) as unknown as FourPlaces,
      )
    : candidatesByFeatures(cv, sizes, surfaceOf(task));
  const best = candidates[0];
  if (!best || !isBelievable(best)) {
    throw unmatched(sizes.photo, task.corners !== null);
  }
  return pairOf(artwork, photo, photoScale, toGrey, best, task);
}

/** Enough of the pattern agrees, and lies where the map says: a map of the wrong shape leaves shifts behind. */
function isBelievable({ refined }: Candidate): boolean {
  const { agreement, blocks, residualPixels } = refined;
  return (
    agreement >= leastAgreement &&
    blocks >= fewestBlocks &&
    residualPixels !== null &&
    residualPixels <= mostResidual
  );
}

async function greySizes(artwork: RgbBytes, photo: RgbBytes): Promise<GreySizes> {
  const side = Math.min(photoGreySide, Math.max(photo.width, photo.height));
  const [small, ...art] = await Promise.all([
    colourOfSize(photo, side),
    ...artworkSizes.map((size) => colourOfSize(artwork, size)),
  ]);
  const greys = art.map(lumaOf);
  return {
    artwork: new Map(artworkSizes.map((size, i) => [size, greys[i]!])),
    mirrored: new Map(artworkSizes.map((size, i) => [size, mirroredGrey(greys[i]!)])),
    photo: lumaOf(small),
  };
}

function surfaceOf({ surface, diameterMm, artworkWidthMm }: RegisterTask): PieceSurface {
  if (surface !== 'cylinder') return { kind: surface };
  const isKnown = diameterMm !== null && artworkWidthMm !== null && diameterMm > 0;
  return { kind: 'cylinder', radiansAcross: isKnown ? (2 * artworkWidthMm) / diameterMm : null };
}

async function pairOf(
  artwork: RgbBytes,
  photo: RgbBytes,
  photoScale: number,
  toGrey: number,
  { map: found, isReversed, refined }: Candidate,
  task: RegisterTask,
): Promise<AlignedPair> {
  const { width, height } = sizeOf(artwork, task.longSidePixels);
  const fromLevel = task.longSidePixels / artworkSizes[artworkSizes.length - 1]!;
  const turned = resizedMap(found, fromLevel, 1 / toGrey);
  const map = isReversed ? mirroredMap(turned, width) : turned;
  const spacing = Math.sqrt(largestStretch(map, width, height));
  // Made no finer than the pair first, so that nothing beats with its grid.
  const finest = Math.max(photo.width, photo.height);
  const side = spacing > 1.3 ? Math.round(finest / spacing) : finest;
  const [drawn, seen] = await Promise.all([
    colourOfSize(artwork, task.longSidePixels),
    colourOfSize(photo, side),
  ]);
  const laid = lightThrough(seen, resizedMap(map, 1, seen.width / photo.width), width, height, toLinear);
  const pair = {
    widthPixels: width,
    heightPixels: height,
    artwork: linearOf(drawn.data),
    ...laid,
  };
  const lighting = fitLighting(pair);
  divideLighting(pair, lighting);
  const inFile = resizedMap(map, 1, 1 / photoScale);
  const pixelsPerMm = task.artworkWidthMm === null ? null : width / task.artworkWidthMm;
  const residualPixels = refined.residualPixels === null ? null : refined.residualPixels * fromLevel;
  return {
    ...pair,
    pixelsPerMm,
    isReversed,
    map: inFile,
    outline: outlineOf(inFile, laid.valid, width, height),
    photoPixelsPerPixel: spacing / photoScale,
    residualPixels,
    residualMm: residualPixels === null || pixelsPerMm === null ? null : residualPixels / pixelsPerMm,
    agreement: refined.agreement,
    lighting,
    foundBy: task.corners ? 'corners' : 'features',
    remarks: remarksOf(isReversed, spacing, refined.agreement),
  };
}

function linearOf(bytes: Uint8Array): Float32Array {
  const light = new Float32Array(bytes.length);
  for (let i = 0; i < bytes.length; i += 1) light[i] = toLinear[bytes[i]!]!;
  return light;
}

/** From the artwork as it reads, for a map found with it left for right. */
function mirroredMap(map: SurfaceMap, width: number): SurfaceMap {
  if (map.kind === 'cylinder') return { ...map, radiansAcross: -map.radiansAcross };
  const matrix = map.matrix.slice();
  for (const at of [0, 3, 6]) {
    matrix[at] = -map.matrix[at]!;
    matrix[at + 2] = map.matrix[at + 2]! + width * map.matrix[at]!;
  }
  return { kind: 'flat', matrix };
}

function largestStretch(map: SurfaceMap, width: number, height: number): number {
  if (map.kind === 'flat') return Math.abs(stretchAt(map, width / 2, height / 2));
  let most = 0;
  for (let i = 0; i <= 20; i += 1) {
    most = Math.max(most, Math.abs(stretchAt(map, (i / 20) * width, height / 2)));
  }
  return most;
}

/** Corners of the artwork in the photo; of a cylinder, of the columns that are mostly in view. */
function outlineOf(map: SurfaceMap, valid: Uint8Array, width: number, height: number): FourPlaces {
  let [left, right] = [0, width];
  if (map.kind === 'cylinder') {
    const middle = Math.floor(height / 2) * width;
    while (left < width - 1 && !valid[middle + left]) left += 1;
    while (right > left + 1 && !valid[middle + right - 1]) right -= 1;
  }
  return [
    placeInPhoto(map, left, 0),
    placeInPhoto(map, right, 0),
    placeInPhoto(map, right, height),
    placeInPhoto(map, left, height),
  ];
}

function remarksOf(isReversed: boolean, spacing: number, agreement: number): string[] {
  return [
    ...(isReversed ? ['The piece shows the artwork left for right.'] : []),
    ...(spacing < 0.5 ? ['The photo is coarse: fine lines and slight blur cannot be seen in it.'] : []),
    ...(agreement < 0.5
      ? ['Much of the piece does not look like the artwork; check that it is the right version.']
      : []),
  ];
}
