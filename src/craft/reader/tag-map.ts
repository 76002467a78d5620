import type { Triple } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import type { ReaderMap } from './types.js';

export interface TagMapOptions {
  readonly kind: 'scanner' | 'phone';
  /** The bare ground as the reader saw it. */
  readonly groundRgb: LinearRgb;
  /** What the picture's own profile says: linear light → XYZ (D50, Y = 1), see `tagToXyz`. Left out: sRGB's primaries. */
  readonly toXyz?: ((linear: LinearRgb) => Triple) | undefined;
}

/** Grade D. */
export function tagReaderMap(_options: TagMapOptions): ReaderMap {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}

/** What a picture's ICC profile says of linear light as `openChartPicture` gives it; undefined: nothing usable. */
export function tagToXyz(_icc: Uint8Array | null): ((linear: LinearRgb) => Triple) | undefined {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
