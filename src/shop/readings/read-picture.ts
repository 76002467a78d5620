import type { Reader, ReadingPatch, TestSheetKind } from '#contract';
import type { ChartReading } from '#craft/patchreading';
import { isProblem } from '#craft/problem';
import type { ReaderMap } from '#craft/reader';
import type { ColourSheetOrder } from '#craft/testsheet';
import { chartOverlay, type ReadChart, readChartPicture, refuseCoupons } from '#shop/vision';
import {
  bestMap,
  beyondSentences,
  type CardGiven,
  type ChosenMap,
  gradeSentence,
  ownMapOf,
} from './choose-map.js';
import { type Coloured, colourLight, type UncolouredPatch } from './convert-light.js';
import { assertInColour } from './in-colour.js';
import { isPhotograph } from './is-photograph.js';
import type { KeptReading, SeenLight } from './kept-reading.js';
import type { ReadResult } from './read-result.js';

export interface PictureAbout {
  readonly fileName: string;
  /** What the person says it is; left out: whatever it is. */
  readonly subject?: 'paper' | 'piece' | undefined;
  readonly sheetId?: string | undefined;
  readonly reader: Reader | null;
  /** The reader's calibration; null: none. */
  readonly readerMap: ReaderMap | null;
  /** Left out: by the reader, else by what the file says. */
  readonly from?: 'scan' | 'photo' | undefined;
  readonly card?: CardGiven | undefined;
}

export interface PictureParts {
  /** What the shop knows of a sheet; null: not in its record. */
  readonly orderOf: (sheetId: string) => Promise<ColourSheetOrder | null>;
  readonly kindOf: (sheetId: string) => Promise<TestSheetKind | null>;
  readonly pixelLimit: number;
  /** Told when the overlay could not be drawn: the reading stands without it. */
  readonly onFault: (error: unknown) => void;
}

export interface ReadOptions {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: number, step: string) => void) | undefined;
}

const overlayPixels = 2400;

/**
 * A scan or photo of a test sheet, to colours.
 * Errors: scan.*, image.*, measurements.broken and chart.unusable (of a card), file.missing, job.cancelled.
 */
export async function readPicture(
  source: string | Uint8Array,
  about: PictureAbout,
  parts: PictureParts,
  options: ReadOptions = {},
): Promise<ReadResult> {
  const { signal, onProgress = () => undefined } = options;
  const { reader } = about;
  onProgress(0, 'Finding the sheet and its patches');
  const { pixelLimit } = parts;
  const read = await readChartPicture(source, {
    subject: about.subject,
    expectedSheetId: about.sheetId,
    orderOf: parts.orderOf,
    pixelLimit,
    signal,
  }).catch(async (error) => {
    const isBare = isProblem(error) && error.code === 'scan.no-marks';
    throw (isBare ? await refuseCoupons(source, { pixelLimit, signal }) : null) ?? error;
  });
  assertInColour(
    read.reading.patches.map(({ deviceRgb, isSound, seenRgb }) => ({ deviceRgb, sound: isSound, seenRgb })),
  );
  onProgress(0.7, 'Working the colours out');
  const from =
    about.from ??
    (reader === null
      ? (await isPhotograph(source))
        ? 'photo'
        : 'scan'
      : reader.kind === 'phone'
        ? 'photo'
        : 'scan');
  const own = await ownMapOf(source, {
    kind: from === 'photo' ? 'phone' : 'scanner',
    groundRgb: read.reading.groundRgb,
    icc: read.reader.icc,
    card: about.card,
    pixelLimit: parts.pixelLimit,
  });
  const chosen = bestMap(own, about.readerMap);
  const { light, patches } = seenLight(read, own);
  const coloured = colourLight(light, patches, chosen.map);
  onProgress(0.85, 'Drawing what was read');
  const overlay = await overlayOf(source, read, parts, signal);
  const kind = await parts.kindOf(read.reading.sheetId);
  const remarks = [
    ...light.remarks,
    ...(kind === null
      ? ['This sheet is not in the shop’s record; it was read by what its own code says.']
      : []),
  ];
  const kept: KeptReading = {
    format: 'dyewright-reading',
    version: 1,
    patches: coloured.patches,
    light: { ...light, remarks },
  };
  return {
    facts: {
      ...factsOf(read.reading),
      ...colourFacts(coloured, chosen, reader, read.reading.surface, remarks),
      sheetKind: kind ?? 'colour',
      from,
      fileName: about.fileName,
      pixelsPerMm: read.reading.pixelsPerMm,
    },
    kept,
    overlay,
  };
}

/** All that depends on by which map the colours are told; also when they are told anew. */
export function colourFacts(
  coloured: Coloured,
  chosen: ChosenMap,
  reader: Reader | null,
  subject: 'paper' | 'piece',
  remarks: readonly string[],
) {
  const asked = coloured.patches.filter(({ control }) => !control);
  const sound = asked.filter((patch) => patch.sound);
  const from = subject === 'piece' ? 'the pressed piece' : 'the printed paper';
  return {
    grade: chosen.grade,
    expectedError: chosen.expectedError,
    readerId: reader?.id ?? null,
    readerName: reader?.name ?? null,
    patchCount: asked.length,
    soundCount: sound.length,
    groundLab: coloured.groundLab,
    routeStrip: coloured.routeStrip,
    sentences: [
      `Read ${sound.length} of ${asked.length} patches from ${from}.`,
      ...(subject === 'paper'
        ? ['It is not pressed yet: the press changes these colours a great deal.']
        : []),
      gradeSentence(chosen, reader),
      ...beyondSentences(coloured.unknown, chosen.grade),
      ...remarks,
      ...chosen.map.remarks,
    ],
  };
}

function factsOf(reading: ChartReading) {
  const { evenness, repeatability } = reading;
  return {
    sheetId: reading.sheetId,
    subject: reading.surface,
    repeatability:
      repeatability.patches === 0
        ? null
        : { meanDeltaE00: repeatability.meanDeltaE00, patches: repeatability.patches },
    evenness: {
      known: evenness.isKnown,
      least: { ...evenness.least },
      most: { ...evenness.most },
      map: { ...evenness.map, dye: [...evenness.map.dye] },
    },
    lightRatio: reading.lightRatio,
  };
}

function seenLight(
  { reading, layout }: ReadChart,
  own: ReaderMap,
): { light: SeenLight; patches: UncolouredPatch[] } {
  const light: SeenLight = {
    groundRgb: reading.groundRgb,
    sdRgb: reading.repeatability.sd,
    patches: reading.patches.map(({ seenRgb, evenRgb, sd, pixels }) => ({
      seenRgb,
      evenRgb,
      sdRgb: sd,
      pixels,
    })),
    routeStrip: reading.routeStrip
      .filter(({ isSound }) => isSound)
      .map(({ name, deviceRgb, seenRgb }) => ({ name, deviceRgb, seenRgb })),
    ownMap: own.data,
    remarks: [...reading.remarks],
  };
  const patches = reading.patches.map((patch): UncolouredPatch => {
    const { column, row } = layout.patches[patch.index]!;
    const { index, deviceRgb, usedShare, warnings, isSound, chosen } = patch;
    return {
      index,
      column,
      row,
      deviceRgb: [...deviceRgb] as ReadingPatch['deviceRgb'],
      usedShare,
      warnings: [...warnings],
      sound: isSound,
      control: chosen === null,
    };
  });
  return { light, patches };
}

async function overlayOf(
  source: string | Uint8Array,
  read: ReadChart,
  { pixelLimit, onFault }: PictureParts,
  signal: AbortSignal | undefined,
): Promise<ReadResult['overlay']> {
  try {
    return await chartOverlay(source, read, { maxPixels: overlayPixels, pixelLimit, signal });
  } catch (error) {
    signal?.throwIfAborted();
    onFault(error);
    return null;
  }
}
