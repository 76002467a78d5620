import type { ReadingPatch } from '#contract';
import type { LinearRgb } from '#craft/patchreading';
import type { ReaderMapData } from '#craft/reader';
import type { RoutePatchName } from '#craft/sheet';
import type { ContentFiles } from '#shop/files';

/** What a reading is made of, kept by its content: enough to work its colours out again when its reader is calibrated. */
export interface KeptReading {
  readonly format: 'dyewright-reading';
  readonly version: 1;
  /** In the order of the sheet's patches. */
  readonly patches: readonly ReadingPatch[];
  /** What the reader saw; null for instruments, which say colours themselves. */
  readonly light: SeenLight | null;
}

export interface SeenLight {
  readonly groundRgb: LinearRgb;
  /** Standard deviation of one patch, from colours printed several times. */
  readonly sdRgb: LinearRgb;
  /** For each of `patches`. */
  readonly patches: readonly {
    /** With the reader's light made even. */
    readonly seenRgb: LinearRgb;
    /** With the press made even too. */
    readonly evenRgb: LinearRgb;
    /** From pixel to pixel. */
    readonly sdRgb: LinearRgb;
    readonly pixels: number;
  }[];
  readonly routeStrip: readonly {
    readonly name: RoutePatchName;
    readonly deviceRgb: readonly [number, number, number];
    readonly seenRgb: LinearRgb;
  }[];
  /** What the picture alone says of its colours: a card in it, or its tag. Used while its reader is not calibrated. */
  readonly ownMap: ReaderMapData;
  /** What was remarked when it was read, whatever its colours. */
  readonly remarks: readonly string[];
}

/** Errors: file.missing. */
export async function openKept(files: ContentFiles, patchesHash: string): Promise<KeptReading> {
  // Written by this program alone and kept under its hash.
  return JSON.parse(new TextDecoder().decode(await files.bytesOf(patchesHash))) as KeptReading;
}
