import type { LadderPicture, Reader } from '#contract';
import type { CouponReading } from '#craft/couponreading';
import type { LinearRgb } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import type { ReaderMap } from '#craft/reader';
import { spokenSheetId } from '#craft/sheet';
import { gradeSentence } from '#shop/readings';
import { type CouponInPicture, type CouponSize, type ReadCoupons, readCouponsPicture } from '#shop/vision';
import { type CouponSeen, couponValues, inkColours } from './coupon-values.js';
import { countDiffering } from './differing.js';
import { refuseOtherSheet } from './other-sheet.js';
import { mapForPicture } from './picture-map.js';
import { listed } from './words.js';

/** What the shop knows of a ladder sheet. */
export interface KnownLadder extends CouponSize {
  readonly sheetId: string;
  readonly numbers: readonly number[];
}

export interface LadderPictureParts {
  /** Errors: record.missing, scan.wrong-sheet for another kind of sheet. */
  readonly ladder: (sheetId: string) => Promise<KnownLadder>;
  readonly isLadder: (sheetId: string) => Promise<boolean>;
  /** 'the colour test sheet for Slate coaster'; null: not in the record. */
  readonly nameOf: (sheetId: string) => Promise<string | null>;
  readonly pixelLimit: number;
}

export interface LadderPictureAbout {
  /** The ladder meant; undefined: as the coupons' codes say. */
  readonly sheetId: string | undefined;
  readonly reader: Reader | null;
  readonly readerMap: ReaderMap | null;
}

/** One picture of coupons, read. */
export interface LadderPictureRead extends Pick<LadderPicture, 'grade' | 'surface' | 'remarks'> {
  readonly sheetId: string;
  readonly coupons: readonly (CouponSeen & { readonly number: number })[];
}

type Own = CouponInPicture & { readonly number: number; readonly reading: CouponReading };

/**
 * Coupons of one ladder in a scan or photo, in values. Which is which is never guessed: coupons of another ladder, numbers
 * that cannot be made out or stand twice with different values are left out and said.
 * Errors: scan.*, image.*, request.invalid, record.missing, file.missing, job.cancelled.
 */
export async function readLadderPicture(
  source: string | Uint8Array,
  about: LadderPictureAbout,
  parts: LadderPictureParts,
  signal: AbortSignal | undefined,
): Promise<LadderPictureRead> {
  const { pixelLimit } = parts;
  let ladder = about.sheetId === undefined ? null : await parts.ladder(about.sheetId);
  let read: ReadCoupons;
  try {
    read = await readCouponsPicture(source, { expected: ladder ?? undefined, pixelLimit, signal });
  } catch (error) {
    throw await refuseOtherSheet(source, error, parts, 'a ladder’s coupons', signal);
  }
  ladder ??= await parts.ladder(await ladderInPicture(read, parts));
  const { own, remarks } = sorted(read, ladder);
  const surfaces = new Set(own.map(({ reading }) => reading.surface));
  const surface = surfaces.has('piece') ? 'piece' : 'paper';
  const facing = own.filter(({ reading }) => reading.surface === surface);
  if (facing.length < own.length)
    remarks.push(
      `Coupon ${listed(own.filter((one) => !facing.includes(one)).map(({ number }) => number))} shows the printed paper, not the pressed piece, and was left out.`,
    );
  if (surface === 'paper')
    remarks.unshift(
      'These coupons read left for right: it is the printed paper, not pressed yet, and tells nothing of the press. If they are pressed, they were mirrored twice or not at all.',
    );
  remarks.push(...colourRemarks(facing));

  const chosen = await mapForPicture(source, {
    ...about,
    groundRgb: medianGround(facing.map(({ reading }) => reading.ground.rgb)),
    pixelLimit,
  });
  const { coupons, twice } = onceEach(
    facing.map(({ number, reading }) => ({ number, ...couponValues(reading, chosen.map) })),
  );
  return {
    sheetId: ladder.sheetId,
    surface,
    grade: chosen.grade,
    coupons,
    remarks: [...remarks, ...twice, gradeSentence(chosen, about.reader)],
  };
}

/** Errors: scan.unclear, request.invalid when it cannot be told, record.missing. */
async function ladderInPicture({ coupons }: ReadCoupons, parts: LadderPictureParts): Promise<string> {
  const ids = [...new Set(coupons.flatMap(({ sheetId }) => (sheetId === null ? [] : [sheetId])))];
  if (ids.length === 0) {
    throw new Problem(
      'scan.unclear',
      'No coupon’s square code can be read, so it is not known whose they are.',
      {
        remedy: 'Say which ladder they are of; their numbers are then read from the cells.',
        where: 'sheetId',
      },
    );
  }
  const known: string[] = [];
  for (const id of ids) if (await parts.isLadder(id)) known.push(id);
  if (known.length > 1) {
    throw new Problem(
      'request.invalid',
      `Coupons of ${known.length} ladders lie in the picture: ${known.map((id) => spokenSheetId(id)).join(', ')}.`,
      { remedy: 'Say which ladder is meant, or scan each ladder by itself.', where: 'sheetId' },
    );
  }
  return known[0] ?? ids[0]!;
}

/** The ladder's own coupons that could be read, and what is to be said of the others. Errors: scan.* when none is left. */
function sorted(
  { coupons, remarks: seen }: ReadCoupons,
  { sheetId, numbers }: KnownLadder,
): { own: Own[]; remarks: string[] } {
  const remarks = [...seen];
  const others = coupons.filter((one) => one.sheetId !== null && one.sheetId !== sheetId);
  const codeless = coupons.filter((one) => one.sheetId === null);
  // Among coupons of two ladders one without a code may be of either.
  const mine = coupons.filter(
    (one) => one.sheetId === sheetId || (one.sheetId === null && others.length === 0),
  );
  if (others.length > 0) {
    const ids = [...new Set(others.map((one) => spokenSheetId(one.sheetId!)))];
    if (mine.length === 0) {
      throw new Problem(
        'scan.wrong-sheet',
        `These are coupons of ladder ${ids.join(' and ')}, not of ${spokenSheetId(sheetId)}.`,
        { remedy: 'Choose the ladder that they are of, or scan the right coupons.' },
      );
    }
    if (codeless.length > 0)
      remarks.push(
        `${codeless.length} coupons without a readable code may be of either ladder and were left out: scan each ladder by itself.`,
      );
  }
  const own: Own[] = [];
  let firstRefusal: Problem | null = null;
  for (const one of mine) {
    const { number, reading, refusal } = one;
    if (refusal !== null) {
      firstRefusal ??= new Problem(refusal.code, refusal.message, { remedy: refusal.remedy });
      remarks.push(`${number === null ? 'A coupon' : `Coupon ${number}`} was not read: ${refusal.message}`);
    }
    if (number === null || reading === null) continue;
    if (numbers.includes(number)) own.push({ ...one, number, reading });
    else
      remarks.push(
        `Coupon ${number} was left out: the ladder has numbers ${numbers[0]} to ${numbers.at(-1)}.`,
      );
  }
  if (own.length > 0) return { own, remarks };
  throw (
    firstRefusal ??
    new Problem('scan.unclear', 'No coupon’s number could be made out.', {
      remedy: 'Lay the coupons flat, apart from each other, and scan at 300 ppi or more.',
    })
  );
}

/** Errors: scan.unclear for a picture without colour. */
function colourRemarks(coupons: readonly Own[]): string[] {
  const colours = coupons.map(({ reading }) => inkColours(reading));
  if (colours.every((colour) => colour === 'grey')) {
    throw new Problem('scan.unclear', 'The coupons’ cyan, magenta and yellow are grey in the picture.', {
      remedy:
        'Set the scanner to colour (24 or 48 bit) and scan again. If the print itself is grey, set its driver to colour.',
    });
  }
  const wrong = colours.filter((colour) => colour === 'exchanged').length;
  return wrong > colours.length / 2
    ? [
        'Cyan, magenta and yellow do not look like themselves: the sheet was printed by another route than its setup’s, or an ink is missing. The window is about that print.',
      ]
    : [];
}

/** Of each number one: two that say the same are one coupon seen twice; two that differ are not used. */
function onceEach(coupons: LadderPictureRead['coupons']): {
  coupons: LadderPictureRead['coupons'];
  twice: string[];
} {
  const twice: string[] = [];
  const numbers = [...new Set(coupons.map(({ number }) => number))].sort((a, b) => a - b);
  const once = numbers.flatMap((number) => {
    const same = coupons.filter((one) => one.number === number);
    if (same.length === 1) return same;
    if (same.slice(1).every((one) => countDiffering(same[0]!.values, one.values) === 0)) return [same[0]!];
    twice.push(
      `Coupon ${number} is in the picture ${same.length === 2 ? 'twice' : `${same.length} times`} with different values, so none of them was taken: scan only the one that counts.`,
    );
    return [];
  });
  return { coupons: once, twice };
}

function medianGround(grounds: readonly LinearRgb[]): LinearRgb {
  return [0, 1, 2].map((c) => {
    const sorted = grounds.map((rgb) => rgb[c]!).sort((a, b) => a - b);
    return sorted[sorted.length >> 1]!;
  }) as unknown as LinearRgb;
}
