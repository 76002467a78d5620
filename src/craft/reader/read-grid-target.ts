import type { Triple } from '#craft/colour';
import type { LinearRgb, SampledPicture } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { areaFactor, fitHomography, mapPoint, type PlaneMap, type Point } from '#craft/reading';
import { readGreyScale } from './grey-scale.js';
import { cellLabel, type GridTarget } from './grid-target.js';
import { rankCorrelation } from './rank-correlation.js';
import { type Spot, spotValue } from './spot.js';
import type { ReaderSample } from './types.js';

export interface ReadTarget {
  readonly samples: ReaderSample[];
  readonly remarks: string[];
}

/** Half the side looked at, in cells: clear of borders, and of corners that were dragged a little wrong. */
const halfLooked = 0.25;
/** A patch narrower than this in the picture cannot be read. */
const leastPatchPixels = 8;
/** Light and dark must come in the file's order; the next best way round must be clearly worse. */
const leastCorrelation = 0.85;
const leastLead = 0.03;

/**
 * The patches of a card or target lying in a picture, in linear light. Which way round it lies is told by the file: in
 * one of eight ways light and dark come in its order.
 * @param corners the outer corners of the field of patches, pixels, going round either way from any of them
 * @throws Problem `scan.unclear` for corners that cannot be, patches too small, or a file of another target
 */
export function readGridTarget(
  picture: SampledPicture,
  corners: readonly Point[],
  target: GridTarget,
): ReadTarget {
  const ways = waysRound(picture, corners, target);
  const judged = ways
    .map((toPicture) => {
      const spots = spotsOf(picture, toPicture, target);
      return { toPicture, spots, correlation: correlationOf(spots, target) };
    })
    .sort((a, b) => b.correlation - a.correlation);
  const [best, next] = judged;
  if (best === undefined || best.correlation < leastCorrelation) {
    throw unclear(
      'Light and dark patches do not come in the order the file has them, whichever way round.',
      'Check that the file belongs to this target or card, and drag the corners to the outer corners of its field of patches.',
    );
  }
  if (next !== undefined && next.correlation > best.correlation - leastLead) {
    throw unclear(
      'It cannot be told which way round the target or card lies.',
      'Drag the corners more exactly to the outer corners of the field of patches.',
    );
  }
  const { toPicture, spots } = best;
  const remarks: string[] = [];
  if (isMirrored(toPicture, target)) {
    remarks.push('The target or card is seen mirrored in the picture; it was read so.');
  }
  const usable = spots.filter((spot) => spot !== null && !spot.clipped).length;
  const clipped = spots.filter((spot) => spot?.clipped).length;
  if (clipped > 0) {
    remarks.push(
      `${clipped} ${clipped === 1 ? 'patch is' : 'patches are'} too light for the reader and ${clipped === 1 ? 'was' : 'were'} left out.`,
    );
  }
  if (usable < 0.5 * target.lab.filter((lab) => lab !== null).length) {
    throw unclear(
      'More than half of the target’s patches are too light for the reader or outside the picture.',
      'Take the picture again with less light, the whole target in it.',
    );
  }
  const samples = spots.flatMap((spot, i): ReaderSample[] => {
    const lab = target.lab[i];
    if (spot === null || spot.clipped || !lab) return [];
    return [{ rgb: spot.rgb, lab, name: cellLabel(i % target.columns, Math.floor(i / target.columns)) }];
  });
  if (target.greyScale === null) return { samples, remarks };
  const greys = readGreyScale(picture, toPicture, target, target.greyScale, samples);
  if (greys === null)
    remarks.push('The grey scale beside the field was not found; the field alone was used.');
  return { samples: samples.concat(greys ?? []), remarks };
}

/** Maps from cells (a cell is 1 × 1, A1 at the origin) to the picture, the corners taken in each of eight ways. */
function waysRound(
  picture: SampledPicture,
  corners: readonly Point[],
  { columns, rows }: GridTarget,
): PlaneMap[] {
  const { width, height } = picture;
  const inside = corners.every(({ x, y }) => x >= -1 && y >= -1 && x <= width + 1 && y <= height + 1);
  if (corners.length !== 4 || !inside || !isConvex(corners)) {
    throw unclear(
      'The four corners do not go round a field in the picture.',
      'Drag one corner to each outer corner of the field of patches, going round.',
    );
  }
  const field: Point[] = [
    { x: 0, y: 0 },
    { x: columns, y: 0 },
    { x: columns, y: rows },
    { x: 0, y: rows },
  ];
  const maps: PlaneMap[] = [];
  for (let start = 0; start < 4; start += 1) {
    for (const step of [1, 3]) {
      const map = fitHomography(field.map((from, i) => ({ from, to: corners[(start + step * i) % 4]! })));
      if (map !== null) maps.push(map);
    }
  }
  const small = maps.every((map) => {
    const areas = field.map((corner) => Math.abs(areaFactor(map, corner)));
    return Math.min(...areas) < leastPatchPixels ** 2;
  });
  if (small) {
    throw unclear(
      'The patches of the target are too small in the picture.',
      'Scan at 300 ppi, or go nearer with the camera.',
    );
  }
  return maps;
}

/** All turns the same way round, and none nearly straight. */
function isConvex(corners: readonly Point[]): boolean {
  const turns = corners.map((_, i) => {
    const [a, b, c] = [corners[i]!, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!];
    const cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    return cross / Math.max(1, Math.hypot(b.x - a.x, b.y - a.y) * Math.hypot(c.x - b.x, c.y - b.y));
  });
  return turns.every((turn) => turn > 0.1) || turns.every((turn) => turn < -0.1);
}

function spotsOf(picture: SampledPicture, toPicture: PlaneMap, target: GridTarget): (Spot | null)[] {
  return target.lab.map((lab, i) => {
    if (lab === null) return null;
    const centre = { x: (i % target.columns) + 0.5, y: Math.floor(i / target.columns) + 0.5 };
    return spotValue(picture, toPicture, centre, halfLooked);
  });
}

/** The middle channel goes with lightness best, all three tell most. */
export const lightOf = (rgb: LinearRgb): number => 0.3 * rgb[0] + 0.6 * rgb[1] + 0.1 * rgb[2];

function correlationOf(spots: readonly (Spot | null)[], target: GridTarget): number {
  const seen: number[] = [];
  const known: number[] = [];
  spots.forEach((spot, i) => {
    const lab: Triple | null = target.lab[i] ?? null;
    if (spot === null || lab === null) return;
    seen.push(lightOf(spot.rgb));
    known.push(lab[0]);
  });
  return seen.length < 6 ? 0 : rankCorrelation(seen, known);
}

const isMirrored = (map: PlaneMap, { columns, rows }: GridTarget): boolean => {
  const centre = { x: columns / 2, y: rows / 2 };
  return areaFactor(map, centre) < 0 && Number.isFinite(mapPoint(map, centre).x);
};

const unclear = (message: string, remedy: string): Problem =>
  new Problem('scan.unclear', message, { remedy });
