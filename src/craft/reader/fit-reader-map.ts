import { Problem } from '#craft/problem';
import type { ReaderMap, ReaderSample } from './types.js';

export interface FitReaderOptions {
  /** Only shuffles which pairs settings are learnt on. Default 1. */
  readonly seed?: number;
  /**
   * same-ink: the pairs are pressed with the inks that will be read · target: other colourants, so that the expected
   * error is widened. Default same-ink.
   */
  readonly by?: 'same-ink' | 'target';
}

/** Grade B. @throws Problem `chart.unusable` */
export function fitReaderMap(_samples: readonly ReaderSample[], _options: FitReaderOptions = {}): ReaderMap {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
