import { deltaE00, srgb8FromLab } from '#craft/colour';
import { clipUnit } from './clip.js';
import { deviceChannels, sideFromPcs, sideToPcs } from './device-side.js';
import { gridFunction } from './grid.js';
import type { InPlace } from './lut-function.js';
import { labToXyzInPlace, xyzToLabInPlace } from './pcs-encoding.js';
import { applyScale } from './pcs-scale.js';
import { connectionScale } from './transform.js';
import type { IccProfile, TransformOptions } from './types.js';

type Triple = readonly [number, number, number];

/**
 * Colours further than this (ΔE00) from what the device reaches are called unreachable. Even colours a device does print
 * come back through its tables a little off: 95 of 100 within 2.5 in a real profile with a coarse grid (the CMYK one that
 * libvips carries), within 0.6 to 1.1 in the tables written here (measured in links.test.ts). A smaller threshold would
 * call printable colours unreachable; a difference of 3 is plain side by side (ISO 12647-2:2013 allows solids 3.5).
 */
export const reachThresholdDeltaE00 = 3;

/** How far each source colour is from the nearest the destination reaches, on a grid in source encoding. */
export interface ReachTable {
  readonly inputChannels: 1 | 3 | 4;
  readonly gridPoints: number;
  /** gridPoints^inputChannels × 10: ΔE00, then L* a* b* wanted, nearest, source; first channel slowest. */
  readonly values: Float32Array;
}

export interface Reach {
  readonly deltaE00: number;
  /** What is compared: the wanted colour with its black moved, and the nearest. */
  readonly wantedLab: Triple;
  readonly nearestLab: Triple;
  /** For the screen, 0..255, clipped to sRGB: the artwork's own colour, and what comes of it beside the paper's white. */
  readonly wantedSrgb8: Triple;
  readonly nearestSrgb8: Triple;
}

const entriesPerNode = 10;
const sizes: Readonly<Record<1 | 3 | 4, number>> = { 1: 256, 3: 33, 4: 13 };

/**
 * Wanted: the source colour, media-relative, its black moved to the destination's where the intent does so (then a black
 * that the paper cannot hold is not counted as missed). Nearest: what the destination's own colorimetric tables make of
 * it, there and back; so "nearest" is as its maker clipped it. The mapping intent plays no part otherwise: it decides
 * what is done with colours out of reach, not which they are.
 */
export function reachTable(options: TransformOptions): ReachTable {
  const channels = deviceChannels(options.source);
  const gridPoints = sizes[channels];
  const source = toLab(options.source);
  const move = moveBlack(options);
  const nearest = roundTrip(options.destination);
  const values = new Float32Array(gridPoints ** channels * entriesPerNode);
  const io = new Float64Array(16);
  const index = new Int32Array(channels);
  for (let at = 0; at < values.length; at += entriesPerNode) {
    for (let c = 0; c < channels; c += 1) io[c] = index[c]! / (gridPoints - 1);
    source(io);
    const own: Triple = [io[0]!, io[1]!, io[2]!];
    move(io);
    const wanted: Triple = [io[0]!, io[1]!, io[2]!];
    nearest(io);
    const near: Triple = [io[0]!, io[1]!, io[2]!];
    values[at] = deltaE00(wanted, near);
    values.set(wanted, at + 1);
    values.set(near, at + 4);
    values.set(own, at + 7);
    for (let c = channels - 1; c >= 0; c -= 1) {
      index[c] = index[c]! + 1;
      if (index[c]! < gridPoints) break;
      index[c] = 0;
    }
  }
  return { inputChannels: channels, gridPoints, values };
}

/** Device → Lab, colorimetric, in place. */
function toLab(profile: IccProfile): InPlace {
  const up = sideToPcs(profile, 'relative');
  return (io) => {
    up.run(io);
    if (up.pcs === 'XYZ') xyzToLabInPlace(io);
  };
}

/** Lab → Lab, from the source's black (or media white, if absolute) to the destination's. */
function moveBlack({ source, destination, intent, blackPointCompensation }: TransformOptions): InPlace {
  const scale = connectionScale({
    source,
    destination,
    intent: intent === 'absolute' ? 'absolute' : 'relative',
    // Perceptual and saturation mappings move black of themselves.
    blackPointCompensation: blackPointCompensation || intent === 'perceptual' || intent === 'saturation',
  });
  if (scale === null) return () => {};
  const move = applyScale(scale);
  return (io) => {
    labToXyzInPlace(io);
    move(io);
    xyzToLabInPlace(io);
  };
}

/** Lab → device → Lab through the colorimetric tables, in place. */
function roundTrip(destination: IccProfile): InPlace {
  const channels = deviceChannels(destination);
  const down = sideFromPcs(destination, 'relative');
  const up = toLab(destination);
  return (io) => {
    if (down.pcs === 'XYZ') labToXyzInPlace(io);
    down.run(io);
    for (let c = 0; c < channels; c += 1) io[c] = clipUnit(io[c]!);
    up(io);
  };
}

/** Interpolation made ready once for each table. */
const ready = new WeakMap<ReachTable, { readonly run: InPlace; readonly io: Float64Array }>();

function look(table: ReachTable, c0: number, c1: number, c2: number, c3: number): Float64Array {
  let prepared = ready.get(table);
  if (prepared === undefined) {
    const points = Array.from({ length: table.inputChannels }, () => table.gridPoints);
    const grid = {
      inputChannels: table.inputChannels,
      outputChannels: entriesPerNode,
      points,
      values: table.values,
    };
    prepared = { run: gridFunction(grid, 'tetrahedral'), io: new Float64Array(16) };
    ready.set(table, prepared);
  }
  const { run, io } = prepared;
  io[0] = c0;
  io[1] = c1;
  io[2] = c2;
  io[3] = c3;
  run(io);
  return io;
}

/** ΔE00 alone, without allocating: for every pixel. Channels encoded 0..1; those the source lacks are left out. */
export function reachDeltaE00(table: ReachTable, c0: number, c1 = 0, c2 = 0, c3 = 0): number {
  return look(table, c0, c1, c2, c3)[0]!;
}

/** All that is known at one colour. Channels encoded 0..1; those the source lacks are left out. */
export function lookUpReach(table: ReachTable, c0: number, c1 = 0, c2 = 0, c3 = 0): Reach {
  const io = look(table, c0, c1, c2, c3);
  const wanted: Triple = [io[1]!, io[2]!, io[3]!];
  const near: Triple = [io[4]!, io[5]!, io[6]!];
  return {
    deltaE00: io[0]!,
    wantedLab: wanted,
    nearestLab: near,
    wantedSrgb8: srgb8FromLab([io[7]!, io[8]!, io[9]!]),
    nearestSrgb8: srgb8FromLab(near),
  };
}
