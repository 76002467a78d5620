import type { Reader } from '#contract';
import { Problem } from '#craft/problem';
import type { ReaderMap, ReaderSample } from '#craft/reader';
import type { Point } from '#craft/reading';
import type { ContentFiles } from '#shop/files';
import type { Records } from '#shop/store';

export interface ReaderCalibration {
  readonly by: 'same-ink' | 'target';
  readonly samples: readonly ReaderSample[];
  readonly setupName: string | null;
  readonly remarks: readonly string[];
}

export interface TargetPicture {
  /** A path, or the file's bytes. */
  readonly source: string | Uint8Array;
  /** The outer corners of the field of patches in the picture, pixels, going round. */
  readonly corners: readonly Point[];
  /** The CGATS file of the target's patches. */
  readonly reference: Uint8Array;
}

export interface ReadersParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly now: () => Date;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit: number;
}

const later = (): Problem => new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });

/** Scanners and phones, and what is known of how they see. */
export class Readers {
  constructor(private readonly parts: ReadersParts) {}

  list(): Promise<Reader[]> {
    return this.parts.records.readers.list();
  }

  async get(_id: string): Promise<Reader> {
    throw later();
  }

  async put(_id: string, _input: unknown): Promise<Reader> {
    throw later();
  }

  async remove(_id: string): Promise<void> {
    throw later();
  }

  /** Null: not calibrated. */
  async mapOf(_reader: Reader): Promise<ReaderMap | null> {
    throw later();
  }

  async calibrate(_id: string, _by: ReaderCalibration): Promise<Reader> {
    throw later();
  }

  async calibrateFromTarget(_id: string, _target: TargetPicture): Promise<Reader> {
    throw later();
  }
}
