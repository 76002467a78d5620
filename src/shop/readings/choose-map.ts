import sharp from 'sharp';
import type { ExpectedErrorFacts, Grade, Reader, ReaderKind } from '#contract';
import type { LinearRgb } from '#craft/patchreading';
import {
  cardReaderMap,
  gridTargetOf,
  makeReaderMap,
  type ReaderMap,
  type ReaderMapData,
  readGridTarget,
  tagReaderMap,
  tagToXyz,
} from '#craft/reader';
import { measurementsOf } from '#shop/paths';
import { openChartPicture } from '#shop/vision';

/** A card of known patches that lies in the picture beside the sheet. */
export interface CardGiven {
  /** Outer corners of its field of patches, pixels of the upright picture, going round. */
  readonly corners: readonly (readonly [number, number])[];
  /** Its CGATS file. */
  readonly values: Uint8Array;
}

/** What a picture says of its own colours: by the card that lies in it (C), else by its tag (D). */
export async function ownMapOf(
  source: string | Uint8Array,
  about: {
    readonly kind: ReaderKind;
    readonly groundRgb: LinearRgb;
    readonly icc: Uint8Array | null;
    readonly card: CardGiven | undefined;
    readonly pixelLimit: number;
  },
): Promise<ReaderMap> {
  const { kind, groundRgb, icc, card, pixelLimit } = about;
  if (card === undefined) return tagReaderMap({ kind, groundRgb, toXyz: tagToXyz(icc) });
  const target = gridTargetOf(measurementsOf(card.values));
  const { picture } = await openChartPicture(source, pixelLimit);
  const scale = picture.width / (await uprightWidth(source));
  const corners = card.corners.map(([x, y]) => ({ x: x * scale, y: y * scale }));
  const { samples, remarks } = readGridTarget(picture, corners, target);
  const map = cardReaderMap(samples, groundRgb);
  const data: ReaderMapData = { ...map.data, remarks: [...remarks, ...map.data.remarks] };
  return makeReaderMap(data);
}

/** Of the picture as it stands in its file, turned upright: what a person points into. */
async function uprightWidth(source: string | Uint8Array): Promise<number> {
  const {
    width,
    height,
    orientation = 1,
  } = await sharp(
    typeof source === 'string' ? source : Buffer.from(source.buffer, source.byteOffset, source.byteLength),
    { limitInputPixels: false },
  ).metadata();
  return orientation >= 5 ? height : width;
}

/** The map that a reading's colours are told by, and what it is worth. */
export interface ChosenMap {
  readonly map: ReaderMap;
  readonly grade: Grade;
  readonly expectedError: ExpectedErrorFacts;
}

/** A calibrated reader tells more than anything in the picture. */
export function bestMap(own: ReaderMap, calibrated: ReaderMap | null): ChosenMap {
  const map = calibrated ?? own;
  const { meanDeltaE00, p95DeltaE00, restsOn } = map.expectedError;
  return { map, grade: map.data.grade, expectedError: { meanDeltaE00, p95DeltaE00, restsOn } };
}

/** 'Colours by the scanner “…” as it was calibrated (grade B): expected error 1.2 ΔE00, 95 % within 2.9.' */
export function gradeSentence(
  { grade, expectedError }: ChosenMap,
  reader: Pick<Reader, 'name'> | null,
): string {
  const { meanDeltaE00, p95DeltaE00 } = expectedError;
  const by = {
    A: 'Colours by an instrument',
    B: `Colours by “${reader?.name ?? 'the reader'}” as it was calibrated`,
    C: 'Colours by the card in the picture',
    D: 'Colours by the picture’s own word, with the bare ground as neutral',
    E: 'Colours by eye',
  }[grade];
  return `${by} (grade ${grade}): expected error ${meanDeltaE00.toFixed(1)} ΔE00, 95 % within ${p95DeltaE00.toFixed(1)}.`;
}

/** Colours beyond what a map was learnt on. A picture's own word is learnt on nothing, so nothing lies beyond it. */
export function beyondSentences(count: number, grade: Grade): string[] {
  const by = { B: 'what the reader was calibrated with', C: 'the colours of the card' } as const;
  if (count === 0 || (grade !== 'B' && grade !== 'C')) return [];
  return [
    count === 1
      ? `One of the colours lies beyond ${by[grade]} and is less sure.`
      : `${count} of the colours lie beyond ${by[grade]} and are less sure.`,
  ];
}
