import { Problem } from '#craft/problem';
import type { ReaderMap, ReaderMapData } from './types.js';

/** The same map again from its data. */
export function makeReaderMap(_data: ReaderMapData): ReaderMap {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
