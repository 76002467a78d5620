import type { SampledPicture } from '#craft/patchreading';
import {
  fitReaderMap,
  type GridTarget,
  type ReaderMapData,
  type ReaderSample,
  type ReadTarget,
  readGridTarget,
} from '#craft/reader';
import type { Point } from '#craft/reading';

/** Learns a map. Errors: chart.unusable. */
export const learn = ({
  samples,
  by,
}: {
  readonly samples: readonly ReaderSample[];
  readonly by: 'same-ink' | 'target';
}): ReaderMapData => fitReaderMap(samples, { by }).data;

/** Reads the patches of a target. Errors: scan.unclear. */
export const readTarget = ({
  picture,
  corners,
  target,
}: {
  readonly picture: SampledPicture;
  readonly corners: readonly Point[];
  readonly target: GridTarget;
}): ReadTarget => readGridTarget(picture, corners, target);
