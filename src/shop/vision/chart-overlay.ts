import { Problem } from '#craft/problem';
import type { ReadChart } from './read-chart-picture.js';

export interface OverlayOptions {
  /** Of the longer side. */
  readonly maxPixels?: number | undefined;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

export interface ChartOverlay {
  readonly jpeg: Buffer;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/**
 * The picture as it was read, upright, with what was read drawn over it.
 *
 * @param source the very picture that was read: a path, or the file's bytes
 * @throws Problem `image.*`, `file.missing`, `job.cancelled`
 */
export async function chartOverlay(
  _source: string | Uint8Array,
  _readChart: ReadChart,
  _options: OverlayOptions = {},
): Promise<ChartOverlay> {
  throw new Problem('internal.fault', 'The overlay cannot be drawn yet.', { remedy: 'Try again later.' });
}
