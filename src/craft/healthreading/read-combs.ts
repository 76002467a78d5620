import { median } from '#craft/numerics';
import type { SampledPicture } from '#craft/patchreading';
import { mapPoint, type PlaneMap } from '#craft/reading';
import type { HealthCombs } from '#craft/testsheet';
import { channelAt, channelOf, scaleAt } from './channel.js';
import { leastSquares } from './line-fit.js';
import { type Heaps, twoHeaps } from './two-heaps.js';
import type { Measured, TwoWayReading } from './types.js';

/** Fewer pixels across a dot do not place it. */
const leastPixelsADot = 2.5;
/** Of a dot's row-to-row room, looked at above and below its middle. */
const heightShare = 0.3;
/** Share of the dots that must be there. */
const leastDots = 0.6;
/** Rows to either side, of which most say on which side a band of rows is, and the share that must agree. */
const bandReach = 4;
const leastSame = 0.85;
/** No offset is told better than so much, whatever the scatter: the dots' own shape. */
const floorUm = 3;

/**
 * Where the dots of each row lie, left or right of their place: one heap when all passes agree, two when those to the
 * left and those to the right do not, whatever way the driver shares rows among passes.
 */
export function readCombs(
  picture: SampledPicture,
  map: PlaneMap,
  combs: HealthCombs,
): Measured<TwoWayReading> {
  const { rows, firstYMm, rowMm, residues, xMm, dotMm, reachMm } = combs;
  const scale = scaleAt(map, { x: xMm[xMm.length >> 1]!, y: firstYMm + (rows / 2) * rowMm });
  if (dotMm * scale.across < leastPixelsADot) {
    return no(`the dots are only ${(dotMm * scale.across).toFixed(1)} pixels wide; scan at 300 ppi or more`);
  }
  const seen: { row: number; xMm: number; yMm: number; offMm: number; mass: number }[] = [];
  const [stepX, stepY] = [0.5 / scale.across, 0.5 / scale.along];
  const half = Math.min(reachMm, 0.65);
  const tall = heightShare * residues * rowMm;
  xMm.forEach((x0, j) => {
    for (let row = j % residues; row < rows; row += residues) {
      const yMm = firstYMm + row * rowMm;
      const dot = centroid(picture, map, channelOf[combs.ink], x0, yMm, half, tall, stepX, stepY);
      if (dot) seen.push({ row, xMm: x0, yMm, ...dot });
    }
  });
  const expected = xMm.reduce((sum, _, j) => sum + Math.ceil((rows - (j % residues)) / residues), 0);
  const usual = median(seen.map(({ mass }) => mass));
  const dots = seen.filter(({ mass }) => mass > 0.4 * usual && mass < 2 * usual);
  if (dots.length < leastDots * expected || !(usual > 0)) return no('too few of the dots are in the picture');
  const middle = { x: xMm[xMm.length >> 1]!, y: firstYMm + (rows / 2) * rowMm };
  const placed = dots.map(({ row, xMm: x, yMm: y, offMm }) => ({
    row,
    lie: [1, x - middle.x, y - middle.y],
    offMm,
  }));
  // First without the sheet's lean, which is small after the squares and would take a part of bands with it; then lie
  // and offset together, which parts a lean (no heaps are left) from bands (the heaps stay).
  let sides = new Map<number, boolean>();
  let rowsSeen: RowSeen[] = [];
  let heaps: Heaps | null = null;
  let errorUm = floorUm / 2;
  for (let round = 0; round < 4; round += 1) {
    const withSides: boolean = heaps?.areTwo === true;
    const used = withSides ? placed.filter(({ row }) => sides.has(row)) : placed;
    const known = round === 0 ? 2 : 3;
    const fit = leastSquares(
      used.map(({ row, lie }) => [
        ...lie.slice(0, known),
        ...(withSides ? [sides.get(row) ? 0.5 : -0.5] : []),
      ]),
      used.map(({ offMm }) => offMm),
    );
    if (!fit) return no('the dots do not span the sheet');
    rowsSeen = rowMedians(
      placed.map(({ row, lie, offMm }) => ({
        row,
        offMm: offMm - lie.slice(0, known).reduce((sum, v, k) => sum + v * fit[k]!, 0),
      })),
    );
    const next = twoHeaps(rowsSeen.map(({ offUm }) => offUm));
    heaps = next;
    if (!next.areTwo && round === 0) continue;
    if (!next.areTwo) break;
    const { low, high } = next;
    sides = new Map(rowsSeen.map(({ row, offUm }) => [row, Math.abs(offUm - high) < Math.abs(offUm - low)]));
    errorUm = gapError(rowsSeen, sides, middle.y, firstYMm, rowMm, next.sd);
  }
  const rowScatterUm = heaps!.sd;
  if (!heaps!.areTwo) {
    const uncertaintyUm = Math.max(2 * heaps!.sd, floorUm);
    return { isMeasured: true, offsetUm: 0, uncertaintyUm, heaps: 1, pattern: null, rowScatterUm };
  }
  const inOrder = rowsSeen.map(({ row }) => sides.get(row)!);
  const bands = inBands(inOrder);
  return {
    isMeasured: true,
    offsetUm: heaps!.high - heaps!.low,
    uncertaintyUm: 2 * Math.hypot(errorUm, floorUm / 2),
    heaps: 2,
    pattern: bands ? { kind: 'bands', heightMm: bandRows(rowsSeen, bands) * rowMm } : { kind: 'woven' },
    rowScatterUm,
  };
}

interface RowSeen {
  readonly row: number;
  readonly offUm: number;
}

function rowMedians(dots: readonly { row: number; offMm: number }[]): RowSeen[] {
  const byRow = new Map<number, number[]>();
  for (const { row, offMm } of dots) {
    const those = byRow.get(row);
    if (those) those.push(offMm);
    else byRow.set(row, [offMm]);
  }
  return [...byRow.entries()]
    .map(([row, offs]) => ({ row, offUm: 1000 * median(offs) }))
    .sort((a, b) => a.row - b.row);
}

/** Standard error of the offset told together with a shift and a lean: few bands lie much as a lean does. */
function gapError(
  rowsSeen: readonly RowSeen[],
  sides: ReadonlyMap<number, boolean>,
  middleY: number,
  firstYMm: number,
  rowMm: number,
  sdUm: number,
): number {
  const y = rowsSeen.map(({ row }) => firstYMm + row * rowMm - middleY);
  const side = rowsSeen.map(({ row }) => (sides.get(row) ? 0.5 : -0.5));
  const lie = leastSquares(
    y.map((v) => [1, v]),
    side,
  );
  if (!lie) return Number.POSITIVE_INFINITY;
  const own = side.reduce((sum, v, i) => sum + (v - lie[0]! - lie[1]! * y[i]!) ** 2, 0);
  return sdUm / Math.sqrt(Math.max(1e-9, own));
}

/** Each row on the side of most of its neighbours, if nearly all then stay where they were; null when sides change row by row. */
function inBands(sides: readonly boolean[]): boolean[] | null {
  const smooth = sides.map((_, i) => {
    const about = [...sides.slice(Math.max(0, i - bandReach), i), ...sides.slice(i + 1, i + bandReach + 1)];
    return about.filter((side) => side).length > about.length / 2;
  });
  const same = smooth.filter((side, i) => side === sides[i]).length;
  return same >= leastSame * sides.length ? smooth : null;
}

/** Mean length of the whole runs: those at the ends are cut off. */
function bandRows(rowsSeen: readonly { row: number }[], sides: readonly boolean[]): number {
  const turns = rowsSeen.flatMap(({ row }, i) => (i > 0 && sides[i] !== sides[i - 1] ? [row] : []));
  if (turns.length < 2) return rowsSeen.length / (turns.length + 1);
  return (turns.at(-1)! - turns[0]!) / (turns.length - 1);
}

/** Ink-weighted middle, millimetres right of its place; null where there is none or the picture ends. */
function centroid(
  picture: SampledPicture,
  map: PlaneMap,
  channel: 0 | 1 | 2,
  xMm: number,
  yMm: number,
  half: number,
  tall: number,
  stepX: number,
  stepY: number,
): { offMm: number; mass: number } | null {
  const columns = Math.ceil((2 * half) / stepX);
  const lines = Math.max(3, Math.ceil((2 * tall) / stepY));
  const profile = new Float64Array(columns);
  for (let i = 0; i < columns; i += 1) {
    const x = xMm - half + ((i + 0.5) / columns) * 2 * half;
    for (let k = 0; k < lines; k += 1) {
      const place = mapPoint(map, { x, y: yMm - tall + ((k + 0.5) / lines) * 2 * tall });
      profile[i]! += channelAt(picture, channel, place.x, place.y) / lines;
    }
  }
  const ends = Math.max(2, Math.floor(0.12 * columns));
  const ground = median([...profile.subarray(0, ends), ...profile.subarray(columns - ends)]);
  if (Number.isNaN(ground)) return null;
  let [mass, moment] = [0, 0];
  profile.forEach((light, i) => {
    const ink = ground - light;
    mass += ink;
    moment += ink * (-half + ((i + 0.5) / columns) * 2 * half);
  });
  return mass > 0 ? { offMm: moment / mass, mass } : null;
}

const no = (because: string): { isMeasured: false; because: string } => ({ isMeasured: false, because });
