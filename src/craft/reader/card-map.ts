import type { LinearRgb } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import type { ReaderMap, ReaderSample } from './types.js';

/** Grade C. @throws Problem `chart.unusable` */
export function cardReaderMap(_samples: readonly ReaderSample[], _chartGround: LinearRgb): ReaderMap {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
