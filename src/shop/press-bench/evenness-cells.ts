import type { Triple, Triple3 } from '#craft/colour';
import type { LabCell } from '#craft/evenness';
import { type EvennessReading, type LinearRgb, luminance } from '#craft/patchreading';
import { makeReaderMap, type ReaderMapData } from '#craft/reader';
import { densityOver, sdOfLight, sdOfLuminance } from './reader-noise.js';

/** What a picture of an evenness sheet shows, and by which map its colours are told; plain data. */
export interface EvennessLight {
  readonly columns: number;
  readonly rows: number;
  readonly pitchMm: number;
  readonly groundRgb: LinearRgb;
  readonly cells: readonly Pick<
    EvennessReading['cells'][number],
    'column' | 'row' | 'rgb' | 'sdOfMean' | 'isSound'
  >[];
  readonly map: ReaderMapData;
  /** Pressed in a mug press: its sides are top and bottom. */
  readonly isWrap?: boolean;
}

/**
 * Cells in Lab. Their standard deviation is that of chance from cell to cell alone, carried over by the map's slope at the
 * mean light: what the map itself errs by is the same for all cells of one tone.
 * Errors: chart.unusable for a damaged calibration.
 */
export function labCells({ cells, groundRgb, map: data }: EvennessLight): LabCell[] {
  if (cells.length === 0) return [];
  const map = makeReaderMap(data);
  const mean = [0, 1, 2].map(
    (c) => cells.reduce((sum, { rgb }) => sum + rgb[c]!, 0) / cells.length,
  ) as unknown as LinearRgb;
  const step = 0.01;
  const beside = [0, 1, 2].map((c) => mean.map((v, k) => (k === c ? v + step : v)) as unknown as LinearRgb);
  const told = map.toLab([...cells.map(({ rgb }) => rgb), mean, ...beside]).map(({ lab }) => lab);
  const at = told[cells.length]!;
  const slopes = [0, 1, 2].map((c) => told[cells.length + 1 + c]!.map((v, j) => (v - at[j]!) / step));
  const ground = luminance(groundRgb);
  return cells.map(({ column, row, rgb, sdOfMean, isSound }, i): LabCell => {
    const sd = rgb.map((v, c) => sdOfLight(v, sdOfMean[c]!, ground));
    const sdLab = [0, 1, 2].map((j) => Math.hypot(...sd.map((s, c) => s * slopes[c]![j]!)));
    return {
      column,
      row,
      lab: [...told[i]!] as Triple3 as Triple,
      sdLab: sdLab as Triple3,
      density: densityOver(luminance(rgb), sdOfLuminance(sdOfMean), ground, 0).value,
      isSound,
    };
  });
}
