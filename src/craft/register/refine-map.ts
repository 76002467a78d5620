import { median } from '#craft/numerics';
import { type GreyField, type LocalShift, localShifts } from './local-shifts.js';
import { quickRobustSquares } from './quick-squares.js';
import { fitCylinder, fitCylinderAngle, type MatchedPlace, placeInPhoto } from './surface-map.js';
import type { SurfaceMap } from './types.js';

/** Grey of the artwork at a working scale, and the means to lay the photo over it. */
export interface RefineLevel {
  readonly artwork: GreyField;
  /** The photo through a map from this level's pixels, and where it shows the piece. */
  readonly see: (map: SurfaceMap) => { readonly photo: GreyField; readonly valid: Uint8Array };
  readonly blockPixels: number;
  readonly mostShift: number;
  readonly rounds: number;
}

export interface Refined {
  readonly map: SurfaceMap;
  /** Share of blocks with pattern that agree. */
  readonly agreement: number;
  /** Blocks with pattern in view. */
  readonly blocks: number;
  /** Median shift left in directions that can be measured, in this level's pixels; null with too few blocks. */
  readonly residualPixels: number | null;
}

/** Two blocks of the same pattern correlate above this even when blurred or streaked; unlike ones seldom do. */
const alikeEnough = 0.6;
/** Of eight bits: less variation than this is grain. */
const leastTexture = 4;

/**
 * Gauss–Newton on the map itself from local shifts: each round lays the photo over the artwork, measures the shift of
 * each block, and moves the map by the robust fit of all of them, so that a fault in one place does not bend the rest.
 */
export function refineMap(start: SurfaceMap, level: RefineLevel, isAngleKnown: boolean): Refined {
  let map = start;
  for (let round = 0; ; round += 1) {
    const { photo, valid } = level.see(map);
    const shifts = localShifts(level.artwork, photo, valid, { ...level, leastTexture });
    const agreeing = shifts.filter(({ alike }) => alike > alikeEnough);
    const next = round < level.rounds ? movedBy(map, agreeing, level.artwork, isAngleKnown) : null;
    if (next) {
      map = next;
      continue;
    }
    const textured = texturedBlocks(level, valid);
    const lengths = agreeing.flatMap((shift) => {
      const strong = Math.abs(shift.dx * shift.alongX + shift.dy * shift.alongY);
      return shift.weak > 0.05 * shift.strong ? [Math.hypot(shift.dx, shift.dy)] : [strong];
    });
    return {
      map,
      agreement: textured === 0 ? 0 : agreeing.length / textured,
      blocks: textured,
      residualPixels: lengths.length < 6 ? null : median(lengths),
    };
  }
}

/** How many blocks have pattern, whether or not a shift was found there. */
function texturedBlocks(level: RefineLevel, valid: Uint8Array): number {
  // The artwork against itself: every block with pattern is found, with no shift.
  return localShifts(level.artwork, level.artwork, valid, { ...level, leastTexture }).length;
}

function movedBy(
  map: SurfaceMap,
  shifts: readonly LocalShift[],
  { width, height }: GreyField,
  isAngleKnown: boolean,
): SurfaceMap | null {
  return map.kind === 'flat'
    ? movedPlane(map, shifts, width, height)
    : movedCylinder(map, shifts, width, isAngleKnown);
}

/** The plane's map after a small projective change of places: linear in its eight parts. */
function movedPlane(
  { matrix }: Extract<SurfaceMap, { kind: 'flat' }>,
  shifts: readonly LocalShift[],
  width: number,
  height: number,
): SurfaceMap | null {
  const size = width / 2;
  const rows: number[][] = [];
  const values: number[] = [];
  const weights: number[] = [];
  for (const { x, y, dx, dy, strong, weak, alongX, alongY } of shifts) {
    const [s, t] = [(x - width / 2) / size, (y - height / 2) / size];
    for (const [ux, uy, weight] of [
      [alongX, alongY, strong],
      [-alongY, alongX, weak],
    ] as const) {
      // The weak direction of a block of stripes says nothing.
      if (weight < 0.02 * strong || weight === 0) continue;
      const far = ux * s + uy * t;
      rows.push([ux, ux * s, ux * t, uy, uy * s, uy * t, far * s, far * t]);
      values.push(ux * dx + uy * dy);
      weights.push(Math.sqrt(weight));
    }
  }
  if (rows.length < 16) return null;
  const fit = quickRobustSquares(rows, values, weights, 0.02);
  if (!fit) return null;
  const [a, b, c, d, e, f, g, h] = Array.from(fit, (v) => v / size) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const change = [1 + b, c, a, e, 1 + f, d, -g, -h, 1];
  // In places from the middle, in units of half the width.
  const inward = [1 / size, 0, -width / 2 / size, 0, 1 / size, -height / 2 / size, 0, 0, 1];
  const outward = [size, 0, width / 2, 0, size, height / 2, 0, 0, 1];
  return { kind: 'flat', matrix: times(matrix, times(outward, times(change, inward))) };
}

function times(a: readonly number[], b: readonly number[]): number[] {
  return a.map((_, i) => {
    const [row, column] = [3 * Math.floor(i / 3), i % 3];
    return a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!;
  });
}

/** Fitted anew to where the shifts put its places; those of stripes are left out, they know one direction only. */
function movedCylinder(
  map: Extract<SurfaceMap, { kind: 'cylinder' }>,
  shifts: readonly LocalShift[],
  width: number,
  isAngleKnown: boolean,
): SurfaceMap | null {
  const sure = shifts.filter(({ strong, weak }) => weak > 0.05 * strong);
  if (sure.length < 14) return null;
  const moves = sure.map(({ dx, dy }) => Math.hypot(dx, dy));
  const scale = Math.max(0.05, median(moves));
  const places = sure.map(
    ({ x, y, dx, dy, weak }, i): MatchedPlace => ({
      from: { x, y },
      to: placeInPhoto(map, x + dx, y + dy),
      weight: Math.sqrt(weak) / (1 + (moves[i]! / (3 * scale)) ** 2),
    }),
  );
  const angle = map.radiansAcross;
  return isAngleKnown
    ? fitCylinder(places, angle, width)
    : fitCylinderAngle(places, width, [angle * 0.85, angle * 1.18]);
}
