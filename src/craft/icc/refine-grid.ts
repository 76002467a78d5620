import { cellBends } from './cell-bends.js';
import { clipUnit } from './clip.js';
import type { Transform } from './types.js';

/**
 * A grid sampled at its nodes lies on one side of the truth wherever the chain has a kink (a colour meeting the edge of
 * what the printer can do). Here nodes beside kinks are moved a little, so that the error is shared by both sides: about
 * half as large at worst. It is Kaczmarz's method for least squares, on colours inside the cells where the table bends.
 * Nodes on the neutral axis and at the corners of the space keep their exact values.
 */

/** A bend, in 8-bit codes of second difference, below which a cell is left alone. */
const bendWorthWork = 4;
/** Errors under this, in 8-bit codes, move nothing. */
const errorWorthWork = 0.5;
/** Colours tried in a cell in all, and in all cells together: the second bounds the time (about a microsecond each). */
const coloursPerCell = 8;
const coloursInAll = 400_000;
/** Share of an error made good at one colour: large at first, small at the end so that it settles. */
const firstStep = 0.5;
const lastStep = 0.05;

export interface GridToRefine {
  readonly channels: 3;
  readonly gridPoints: number;
  /** gridPoints³ × 3 values 0..1, first channel slowest; changed in place. */
  readonly values: Float32Array;
  /** Place along the grid 0..1 → device value, by channel. */
  readonly unplace: readonly ((place: number) => number)[];
}

export function refineGrid(grid: GridToRefine, exact: Transform, random: () => number): void {
  const { channels, gridPoints, values, unplace } = grid;
  const cells = bentCells(grid);
  const pinned = pinnedNodes(gridPoints);
  const last = gridPoints - 1;
  const parts = new Float64Array(channels);
  const device = new Float64Array(channels);
  const truth = new Float64Array(3);
  const corners = new Int32Array(4);
  const weights = new Float64Array(4);
  const strides = Array.from({ length: channels }, (_, c) => gridPoints ** (channels - 1 - c));
  const colours = cells.length * coloursPerCell;
  for (let k = 0; k < colours; k += 1) {
    const step = firstStep + (lastStep - firstStep) * (k / colours);
    // A stride prime to most counts goes round all cells again and again, neighbours far apart in time.
    const cell = cells[(k * 7919) % cells.length]!;
    for (let c = 0; c < channels; c += 1) {
      parts[c] = random();
      device[c] = unplace[c]!(((Math.floor(cell / strides[c]!) % gridPoints) + parts[c]!) / last);
    }
    exact.convert(device, truth);
    interpolationWeights(gridPoints, cell, parts, corners, weights);
    let squares = 0;
    for (let i = 0; i < 4; i += 1) squares += weights[i]! ** 2;
    for (let o = 0; o < 3; o += 1) {
      let here = 0;
      for (let i = 0; i < 4; i += 1) here += weights[i]! * values[corners[i]! * 3 + o]!;
      const error = truth[o]! - here;
      if (Math.abs(error) * 255 < errorWorthWork) continue;
      const push = (step * error) / squares;
      for (let i = 0; i < 4; i += 1) {
        const node = corners[i]!;
        if (pinned[node] === 1) continue;
        values[node * 3 + o] = clipUnit(values[node * 3 + o]! + push * weights[i]!);
      }
    }
  }
}

/** The most bent cells, named by their low corner; no more of them than there is time for. */
function bentCells(grid: GridToRefine): Int32Array {
  const bends = cellBends(grid);
  const cellsOfBend = new Int32Array(256);
  for (const bend of bends) cellsOfBend[bend] = cellsOfBend[bend]! + 1;
  let bound = 256;
  let kept = 0;
  while (bound > bendWorthWork && kept + cellsOfBend[bound - 1]! <= coloursInAll / coloursPerCell) {
    bound -= 1;
    kept += cellsOfBend[bound]!;
  }
  return Int32Array.from(bends.keys()).filter((node) => bends[node]! >= bound);
}

const axes = [0, 1, 2];

/** Nodes and weights the kernels use inside a cell: from the low corner along the axes in order of falling fraction. */
function interpolationWeights(
  gridPoints: number,
  cell: number,
  parts: Float64Array,
  corners: Int32Array,
  weights: Float64Array,
): void {
  const [x, y, z] = [parts[0]!, parts[1]!, parts[2]!];
  const low = x < y ? (x < z ? 0 : 2) : y < z ? 1 : 2;
  const high = x >= y ? (x >= z ? 0 : 2) : y >= z ? 1 : 2;
  axes[0] = high;
  axes[1] = 3 - high - low;
  axes[2] = low;
  let node = cell;
  let before = 1;
  for (let i = 0; i <= 3; i += 1) {
    const axis = axes[i] ?? 0;
    const part = i < 3 ? parts[axis]! : 0;
    corners[i] = node;
    weights[i] = before - part;
    before = part;
    node += gridPoints ** (2 - axis);
  }
}

/** Corners of the device space, and neutrals. */
function pinnedNodes(gridPoints: number): Uint8Array {
  const pinned = new Uint8Array(gridPoints ** 3);
  const last = gridPoints - 1;
  for (let i = 0; i < gridPoints; i += 1) pinned[i * (gridPoints ** 2 + gridPoints + 1)] = 1;
  for (let corner = 0; corner < 8; corner += 1) {
    let node = 0;
    for (let c = 0; c < 3; c += 1) node = node * gridPoints + ((corner >> c) & 1) * last;
    pinned[node] = 1;
  }
  return pinned;
}
