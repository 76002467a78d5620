import { Problem } from '#craft/problem';
import type { Field, PlaceValue, Split } from './types.js';

export function splitUnevenness(_values: readonly PlaceValue[], _about: Field): Split {
  throw new Problem('internal.fault', 'Not built yet.', { remedy: 'Wait for it.' });
}
