import { Problem } from '#craft/problem';
import type { ComparableMap } from './types.js';

export function sinceWords(_before: ComparableMap, _now: ComparableMap): string {
  throw new Problem('internal.fault', 'Not built yet.', { remedy: 'Wait for it.' });
}
