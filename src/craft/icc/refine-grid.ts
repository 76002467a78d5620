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
  readonly channels: 3 | 4;
  readonly gridPoints: number;
  /** gridPoints^channels × 3 values 0..1, first channel slowest; changed in place. */
  readonly values: Float32Array;
  /** Place along the grid 0..1 → device value, by channel. */
  readonly unplace: readonly ((place: number) => number)[];
}

export function refineGrid(grid: GridToRefine, exact: Transform, random: () => number): void {
  const { channels, gridPoints, values, unplace } = grid;
  const cells = bentCells(grid);
  const pinned = pinnedNodes(channels, gridPoints);
  const last = gridPoints - 1;
  const parts = new Float64Array(channels);
  const device = new Float64Array(channels);
  const truth = new Float64Array(3);
  const corners = new Int32Array(8);
  const weights = new Float64Array(8);
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
    const count = interpolationWeights(channels, gridPoints, cell, parts, corners, weights);
    let squares = 0;
    for (let i = 0; i < count; i += 1) squares += weights[i]! ** 2;
    for (let o = 0; o < 3; o += 1) {
      let here = 0;
      for (let i = 0; i < count; i += 1) here += weights[i]! * values[corners[i]! * 3 + o]!;
      const error = truth[o]! - here;
      if (Math.abs(error) * 255 < errorWorthWork) continue;
      const push = (step * error) / squares;
      for (let i = 0; i < count; i += 1) {
        const node = corners[i]!;
        if (pinned[node] === 1) continue;
        values[node * 3 + o] = clipUnit(values[node * 3 + o]! + push * weights[i]!);
      }
    }
  }
}

/** The most bent cells, named by their low corner; no more of them than there is time for. */
function bentCells({ channels, gridPoints, values }: GridToRefine): Int32Array {
  const count = gridPoints ** channels;
  const strides = Array.from({ length: channels }, (_, c) => gridPoints ** (channels - 1 - c));
  /** Second difference at a node, the largest over axes and outputs, in 8-bit codes, at most 255. */
  const bends = new Uint8Array(count);
  /** Of a cell: the largest at its corners; 0 for nodes that are no cell's low corner. */
  const cellBends = new Uint8Array(count);
  for (let node = 0; node < count; node += 1) {
    let most = 0;
    for (const stride of strides) {
      const place = Math.floor(node / stride) % gridPoints;
      if (place === 0 || place === gridPoints - 1) continue;
      for (let at = node * 3; at < node * 3 + 3; at += 1) {
        const bend = values[at - 3 * stride]! - 2 * values[at]! + values[at + 3 * stride]!;
        most = Math.max(most, Math.abs(bend));
      }
    }
    bends[node] = Math.min(255, Math.floor(255 * most));
  }
  const steps = Int32Array.from({ length: 2 ** channels }, (_, corner) =>
    strides.reduce((sum, stride, c) => sum + ((corner >> c) & 1) * stride, 0),
  );
  const cellsOfBend = new Int32Array(256);
  for (let node = 0; node < count; node += 1) {
    if (strides.some((stride) => Math.floor(node / stride) % gridPoints === gridPoints - 1)) continue;
    let most = 0;
    for (const step of steps) most = Math.max(most, bends[node + step]!);
    cellBends[node] = most;
    cellsOfBend[most] = cellsOfBend[most]! + 1;
  }
  let bound = 256;
  let kept = 0;
  while (bound > bendWorthWork && kept + cellsOfBend[bound - 1]! <= coloursInAll / coloursPerCell) {
    bound -= 1;
    kept += cellsOfBend[bound]!;
  }
  return Int32Array.from(cellBends.keys()).filter((node) => cellBends[node]! >= bound);
}

const axes = [0, 1, 2];

/** Nodes and weights the kernels use inside a cell: tetrahedral in the last three channels, linear in the first of four. */
function interpolationWeights(
  channels: 3 | 4,
  gridPoints: number,
  cell: number,
  parts: Float64Array,
  corners: Int32Array,
  weights: Float64Array,
): number {
  const first = channels - 3;
  const [x, y, z] = [parts[first]!, parts[first + 1]!, parts[first + 2]!];
  // Axes in order of falling fraction.
  const low = x < y ? (x < z ? 0 : 2) : y < z ? 1 : 2;
  const high = x >= y ? (x >= z ? 0 : 2) : y >= z ? 1 : 2;
  axes[0] = high;
  axes[1] = 3 - high - low;
  axes[2] = low;
  const halves = channels === 4 ? 2 : 1;
  let count = 0;
  for (let half = 0; half < halves; half += 1) {
    const share = halves === 1 ? 1 : half === 0 ? 1 - parts[0]! : parts[0]!;
    let node = cell + half * gridPoints ** 3;
    let before = 1;
    for (let i = 0; i <= 3; i += 1) {
      const axis = axes[i] ?? 0;
      const part = i < 3 ? parts[first + axis]! : 0;
      corners[count] = node;
      weights[count] = share * (before - part);
      count += 1;
      before = part;
      node += gridPoints ** (2 - axis);
    }
  }
  return count;
}

/** Corners of the device space, and neutrals: equal channels, whatever the black of four. */
function pinnedNodes(channels: 3 | 4, gridPoints: number): Uint8Array {
  const pinned = new Uint8Array(gridPoints ** channels);
  const last = gridPoints - 1;
  const blacks = channels === 4 ? gridPoints : 1;
  const diagonal = (gridPoints ** 2 + gridPoints + 1) * blacks;
  for (let i = 0; i < gridPoints; i += 1) {
    for (let black = 0; black < blacks; black += 1) pinned[i * diagonal + black] = 1;
  }
  for (let corner = 0; corner < 2 ** channels; corner += 1) {
    let node = 0;
    for (let c = 0; c < channels; c += 1) node = node * gridPoints + ((corner >> c) & 1) * last;
    pinned[node] = 1;
  }
  return pinned;
}
