import { fitHomography, mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { ChartLayout, ChartPatch } from '#craft/testsheet';
import { type FoundRegistration, findRegistration } from './find-registration.js';
import { shiftByEdges } from './patch-edges.js';
import { median } from './picture.js';
import { derivativeAt, onSheet, type Shift, shiftAt } from './sheet-map.js';
import type { SampledPicture } from './types.js';

export interface PlacedPatches {
  /** The plane laid through corner markers and registration marks. */
  readonly pose: SheetPose;
  readonly registration: FoundRegistration;
  /** How far each patch of the layout lies off the plane, mm. */
  readonly shifts: readonly Point[];
  /** The same for any place on the sheet. */
  shiftNear(place: Point): Point;
  /** Of the patches dark enough to have edges, the share whose edges stand where they should. */
  readonly edgeShare: number;
}

/** Edges further off than this from where they are expected are another patch's, or dust's. */
const strayEdgeMm = 0.7;
/** Device values below this give edges on any printer. */
const darkBelow = 140;

/**
 * Where every patch lies: perspective from the corner markers, curl and stretch from the registration marks, and the
 * last tenths of a millimetre from the edges of the patches round about, twice, the second time from where the first
 * has led.
 */
export function placePatches(picture: SampledPicture, layout: ChartLayout, rough: SheetPose): PlacedPatches {
  const { pose, registration } = settle(rough, findRegistration(picture, layout, rough));
  const byMarks = (place: Point): Point => shiftAt(registration.shifts, place, registration.reachMm);
  let shifts = layout.patches.map(({ rect }) => byMarks(middleOf(rect)));
  const byCell = new Map(layout.patches.map(({ column, row }, i) => [row * layout.columns + column, i]));
  const neighbours = layout.patches.map((patch) => cellsRound(layout, byCell, patch));
  let near: readonly boolean[] = [];
  for (let round = 0; round < 2; round += 1) {
    const offs = layout.patches.map((patch, i): Point | null => {
      const edge = shiftByEdges(picture, layout, pose, patch, shifts[i]!);
      return edge && { x: edge.by.x - shifts[i]!.x, y: edge.by.y - shifts[i]!.y };
    });
    near = offs.map((off) => off !== null && Math.hypot(off.x, off.y) < strayEdgeMm);
    shifts = shifts.map((shift, i) => {
      const off = medianOf(neighbours[i]!.filter((k) => near[k]).map((k) => offs[k]!));
      return { x: shift.x + off.x, y: shift.y + off.y };
    });
  }
  const dark = layout.patches.map(({ deviceRgb }) => Math.min(...deviceRgb) < darkBelow);
  const withEdges = dark.filter(Boolean).length;
  return {
    pose,
    registration,
    shifts,
    shiftNear: (place) => {
      const { area, pitchMm, columns } = layout;
      const column = (place.x - area.xMm) / pitchMm;
      const row = (place.y - area.yMm) / pitchMm;
      const about = [-0.5, 0.5].flatMap((dy) =>
        [-0.5, 0.5].flatMap((dx) => {
          const [i, j] = [Math.floor(column + dx), Math.floor(row + dy)];
          const patch = i >= 0 && i < columns ? byCell.get(j * columns + i) : undefined;
          return patch === undefined ? [] : [shifts[patch]!];
        }),
      );
      return about.length > 0
        ? { x: mean(about.map(({ x }) => x)), y: mean(about.map(({ y }) => y)) }
        : byMarks(place);
    },
    edgeShare: withEdges > 0 ? near.filter((is, i) => is && dark[i]).length / withEdges : 1,
  };
}

/** Patches move with their neighbours: those up to two cells away, itself among them. */
function cellsRound(
  { columns, rows }: ChartLayout,
  byCell: ReadonlyMap<number, number>,
  { column, row }: ChartPatch,
): number[] {
  const found: number[] = [];
  for (let j = Math.max(0, row - 2); j <= Math.min(rows - 1, row + 2); j += 1) {
    for (let i = Math.max(0, column - 2); i <= Math.min(columns - 1, column + 2); i += 1) {
      const patch = byCell.get(j * columns + i);
      if (patch !== undefined) found.push(patch);
    }
  }
  return found;
}

/** Nothing where they are few. */
function medianOf(about: readonly Point[]): Point {
  if (about.length < 5) return { x: 0, y: 0 };
  return { x: median(about.map(({ x }) => x)), y: median(about.map(({ y }) => y)) };
}

/** The plane laid anew through everything that was found; what it does not explain stays as movement. */
function settle(
  rough: SheetPose,
  registration: FoundRegistration,
): { pose: SheetPose; registration: FoundRegistration } {
  if (registration.found < 6) return { pose: rough, registration };
  const pairs = registration.shifts.map(({ at, by }) => ({
    from: at,
    to: mapPoint(rough.toPicture, { x: at.x + by.x, y: at.y + by.y }),
  }));
  const toPicture = fitHomography(pairs);
  if (!toPicture) return { pose: rough, registration };
  const shifts = pairs.map(({ from, to }): Shift => {
    const laid = mapPoint(toPicture, from);
    return {
      at: from,
      by: onSheet(derivativeAt(toPicture, from), { x: to.x - laid.x, y: to.y - laid.y }),
    };
  });
  return { pose: { ...rough, toPicture }, registration: { ...registration, shifts } };
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const middleOf = (rect: ChartLayout['area']): Point => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
