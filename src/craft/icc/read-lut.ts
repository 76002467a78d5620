import { brokenProfile } from './broken.js';
import type { ByteReader } from './byte-reader.js';
import { readCurve } from './read-curve.js';
import type { IccCurve, IccLut, IccStage } from './types.js';

/** How many table values one profile may unfold to. A 65³ RGB table is 0.8 million; CMYK 33⁴ is 3.6 million. */
export interface ValueBudget {
  left: number;
}

const identity = [1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Any of lut8, lut16, lutAToB, lutBToA (ICC.1:2022 10.10–10.13) as the stages it runs through. */
export function readLut(tag: ByteReader, budget: ValueBudget): IccLut {
  const type = tag.signature(0);
  if (type === 'mft1' || type === 'mft2') return readTableLut(tag, type, budget);
  if (type === 'mAB ' || type === 'mBA ') return readStagedLut(tag, type, budget);
  throw brokenProfile(`${tag.where} is not a colour table`, tag.where);
}

function readTableLut(tag: ByteReader, type: 'mft1' | 'mft2', budget: ValueBudget): IccLut {
  const { inputChannels, outputChannels } = readChannels(tag);
  const gridPoints = tag.u8(10);
  const wide = type === 'mft2';
  const inputEntries = wide ? tag.u16(48) : 256;
  const outputEntries = wide ? tag.u16(50) : 256;
  if (inputEntries < 2 || inputEntries > 4096 || outputEntries < 2 || outputEntries > 4096) {
    throw brokenProfile(`${tag.where} has a curve of an absurd length`, tag.where);
  }
  const width = wide ? 2 : 1;
  const stages: IccStage[] = [];
  const matrix = Array.from({ length: 9 }, (_, i) => tag.s15f16(12 + 4 * i));
  if (inputChannels === 3 && matrix.some((v, i) => v !== identity[i])) {
    stages.push({ kind: 'matrix', rows: 3, matrix, offset: [0, 0, 0] });
  }
  let at = wide ? 52 : 48;
  stages.push({ kind: 'curves', curves: readTables(tag, at, inputChannels, inputEntries, width, budget) });
  at += inputChannels * inputEntries * width;
  const points = Array.from({ length: inputChannels }, () => gridPoints);
  stages.push(readGrid(tag, at, points, outputChannels, width, budget));
  at += gridPoints ** inputChannels * outputChannels * width;
  stages.push({ kind: 'curves', curves: readTables(tag, at, outputChannels, outputEntries, width, budget) });
  return { kind: 'lut', type, inputChannels, outputChannels, stages };
}

/** lutAToB runs A, grid, M, matrix, B; lutBToA the other way round. Absent parts have offset 0. */
function readStagedLut(tag: ByteReader, type: 'mAB ' | 'mBA ', budget: ValueBudget): IccLut {
  const { inputChannels, outputChannels } = readChannels(tag);
  const pcsSide = type === 'mAB ' ? outputChannels : inputChannels;
  const deviceSide = type === 'mAB ' ? inputChannels : outputChannels;
  const [bAt, matrixAt, mAt, gridAt, aAt] = [12, 16, 20, 24, 28].map((at) => tag.u32(at)) as [
    number,
    number,
    number,
    number,
    number,
  ];
  if (gridAt === 0 && inputChannels !== outputChannels) {
    throw brokenProfile(
      `${tag.where} has no grid between ${inputChannels} and ${outputChannels} channels`,
      tag.where,
    );
  }
  const stages: IccStage[] = [];
  if (aAt !== 0) stages.push({ kind: 'curves', curves: readCurves(tag, aAt, deviceSide, budget) });
  if (gridAt !== 0) {
    const points = Array.from({ length: inputChannels }, (_, i) => tag.u8(gridAt + i));
    const width = tag.u8(gridAt + 16);
    if (width !== 1 && width !== 2)
      throw brokenProfile(`${tag.where} has values of ${width} bytes`, tag.where);
    stages.push(readGrid(tag, gridAt + 20, points, outputChannels, width, budget));
  }
  if (mAt !== 0) stages.push({ kind: 'curves', curves: readCurves(tag, mAt, pcsSide, budget) });
  if (matrixAt !== 0) {
    if (pcsSide !== 3) throw brokenProfile(`${tag.where} has a matrix for ${pcsSide} channels`, tag.where);
    const numbers = Array.from({ length: 12 }, (_, i) => tag.s15f16(matrixAt + 4 * i));
    stages.push({ kind: 'matrix', rows: 3, matrix: numbers.slice(0, 9), offset: numbers.slice(9) });
  }
  if (bAt !== 0) stages.push({ kind: 'curves', curves: readCurves(tag, bAt, pcsSide, budget) });
  if (type === 'mBA ') stages.reverse();
  return { kind: 'lut', type, inputChannels, outputChannels, stages };
}

function readChannels(tag: ByteReader): { inputChannels: number; outputChannels: number } {
  const inputChannels = tag.u8(8);
  const outputChannels = tag.u8(9);
  if (inputChannels < 1 || inputChannels > 15 || outputChannels < 1 || outputChannels > 15) {
    throw brokenProfile(`${tag.where} has an absurd count of channels`, tag.where);
  }
  return { inputChannels, outputChannels };
}

function readCurves(tag: ByteReader, from: number, count: number, budget: ValueBudget): IccCurve[] {
  const curves: IccCurve[] = [];
  let at = from;
  for (let i = 0; i < count; i += 1) {
    const { curve, bytes } = readCurve(tag, at);
    if (curve.kind === 'sampled') spend(tag, budget, curve.values.length);
    curves.push(curve);
    at += (bytes + 3) & ~3; // each starts on a four-byte boundary
  }
  return curves;
}

function readTables(
  tag: ByteReader,
  from: number,
  count: number,
  entries: number,
  width: number,
  budget: ValueBudget,
): IccCurve[] {
  tag.need(from, count * entries * width);
  spend(tag, budget, count * entries);
  return Array.from({ length: count }, (_, channel): IccCurve => {
    const values = new Float64Array(entries);
    for (let i = 0; i < entries; i += 1)
      values[i] = readUnit(tag, from + (channel * entries + i) * width, width);
    return { kind: 'sampled', values };
  });
}

function readGrid(
  tag: ByteReader,
  at: number,
  points: readonly number[],
  outputChannels: number,
  width: number,
  budget: ValueBudget,
): IccStage {
  if (points.some((n) => n < 2))
    throw brokenProfile(`${tag.where} has a grid of fewer than two points`, tag.where);
  const count = points.reduce((product, n) => product * n, outputChannels);
  tag.need(at, count * width);
  spend(tag, budget, count);
  const values = new Float32Array(count);
  for (let i = 0; i < count; i += 1) values[i] = readUnit(tag, at + i * width, width);
  return { kind: 'grid', grid: { inputChannels: points.length, outputChannels, points, values } };
}

const readUnit = (tag: ByteReader, at: number, width: number): number =>
  width === 2 ? tag.u16(at) / 65535 : tag.u8(at) / 255;

function spend(tag: ByteReader, budget: ValueBudget, values: number): void {
  budget.left -= values;
  if (budget.left < 0) throw brokenProfile('its tables together are absurdly large', tag.where);
}
