import type { SampledPicture } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import type { Point } from '#craft/reading';
import type { GridTarget } from './grid-target.js';
import type { ReaderSample } from './types.js';

export interface ReadTarget {
  readonly samples: ReaderSample[];
  readonly remarks: string[];
}

/** @throws Problem `scan.unclear` */
export function readGridTarget(
  _picture: SampledPicture,
  _corners: readonly Point[],
  _target: GridTarget,
): ReadTarget {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
