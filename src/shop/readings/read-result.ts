import type { Reading } from '#contract';
import type { KeptReading } from './kept-reading.js';

/** A reading worked out and kept nowhere yet. */
export interface ReadResult {
  readonly facts: Omit<
    Reading,
    'id' | 'patchesHash' | 'measurementsHash' | 'overlay' | 'createdAt' | 'demo' | 'sourceHash'
  >;
  readonly kept: KeptReading;
  readonly overlay: {
    readonly jpeg: Uint8Array;
    readonly widthPixels: number;
    readonly heightPixels: number;
  } | null;
}
