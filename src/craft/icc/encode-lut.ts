import type { ByteWriter } from './byte-writer.js';
import { clipUnit } from './clip.js';
import { encodeCurve } from './encode-curve.js';
import type { IccGrid, IccLut, IccStage } from './types.js';

const identityMatrix = [1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Any of the four table types (ICC.1:2022 10.10–10.13). The stages must be ones the type can hold, in its order. */
export function encodeLut(out: ByteWriter, lut: IccLut): void {
  if (lut.type === 'mft1' || lut.type === 'mft2') encodeTableLut(out, lut, lut.type);
  else encodeStagedLut(out, lut, lut.type);
}

function encodeTableLut(out: ByteWriter, lut: IccLut, type: 'mft1' | 'mft2'): void {
  const stages = [...lut.stages];
  const matrix = stages[0]?.kind === 'matrix' ? stages.shift() : undefined;
  const [before, middle, after] = stages;
  if (
    before?.kind !== 'curves' ||
    middle?.kind !== 'grid' ||
    after?.kind !== 'curves' ||
    stages.length !== 3
  ) {
    throw new RangeError(`${type} holds curves, a grid and curves`);
  }
  const write =
    type === 'mft2'
      ? (v: number): void => out.u16(Math.round(65535 * clipUnit(v)))
      : (v: number): void => out.u8(Math.round(255 * clipUnit(v)));
  out.signature(type);
  out.u32(0);
  out.u8(lut.inputChannels, lut.outputChannels, middle.grid.points[0] ?? 0, 0);
  out.s15f16(...(matrix?.kind === 'matrix' ? matrix.matrix : identityMatrix));
  if (type === 'mft2') out.u16(entries(before), entries(after));
  writeTables(before, write);
  for (const v of middle.grid.values) write(v);
  writeTables(after, write);
}

const entries = (stage: IccStage): number =>
  stage.kind === 'curves' && stage.curves[0]?.kind === 'sampled' ? stage.curves[0].values.length : 0;

function writeTables(stage: IccStage, write: (v: number) => void): void {
  if (stage.kind !== 'curves') return;
  for (const curve of stage.curves) {
    if (curve.kind !== 'sampled') throw new RangeError('mft1 and mft2 hold sampled curves only');
    for (const v of curve.values) write(v);
  }
}

/** lutAToB runs A, grid, M, matrix, B and lutBToA the other way; B is always there. */
function encodeStagedLut(out: ByteWriter, lut: IccLut, type: 'mAB ' | 'mBA '): void {
  const stages = type === 'mAB ' ? [...lut.stages] : [...lut.stages].reverse();
  const b = stages.pop();
  const matrix = stages.at(-1)?.kind === 'matrix' ? stages.pop() : undefined;
  const m = matrix !== undefined && stages.at(-1)?.kind === 'curves' ? stages.pop() : undefined;
  const grid = stages.at(-1)?.kind === 'grid' ? stages.pop() : undefined;
  const a = grid !== undefined ? stages.pop() : undefined;
  if (b?.kind !== 'curves' || stages.length > 0)
    throw new RangeError(`${type} cannot hold these stages in this order`);
  const start = out.length;
  out.signature(type);
  out.u32(0);
  out.u8(lut.inputChannels, lut.outputChannels, 0, 0);
  out.u32(0, 0, 0, 0, 0);
  const place = (slot: number): void => out.setU32(start + 12 + 4 * slot, out.length - start);
  place(0);
  writeCurves(out, b);
  if (matrix?.kind === 'matrix') {
    place(1);
    out.s15f16(...matrix.matrix, ...matrix.offset);
  }
  if (m?.kind === 'curves') {
    place(2);
    writeCurves(out, m);
  }
  if (grid?.kind === 'grid') {
    place(3);
    writeGrid(out, grid.grid);
  }
  if (a?.kind === 'curves') {
    place(4);
    writeCurves(out, a);
  }
}

function writeCurves(out: ByteWriter, stage: IccStage): void {
  if (stage.kind !== 'curves') return;
  for (const curve of stage.curves) {
    encodeCurve(out, curve, true);
    out.align();
  }
}

function writeGrid(out: ByteWriter, grid: IccGrid): void {
  for (let i = 0; i < 16; i += 1) out.u8(grid.points[i] ?? 0);
  out.u8(2, 0, 0, 0);
  for (const v of grid.values) out.u16(Math.round(65535 * clipUnit(v)));
  out.align();
}
