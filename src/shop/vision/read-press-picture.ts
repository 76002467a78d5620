import type { EvennessReading } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import type { EvennessSheetOrder } from '#craft/testsheet';
import { readPressInThread } from './pool.js';
import { defaultPixelLimit } from './read-chart-picture.js';
import type { CouponInPicture, CouponSize } from './read-press-pixels.js';

export interface ReadCouponsOptions {
  /** The ladder meant: its coupons' size is then known even where no code can be read. */
  readonly expected?: (CouponSize & { readonly sheetId: string }) | undefined;
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

export interface ReadCoupons {
  /** From top to bottom of the picture. */
  readonly coupons: readonly CouponInPicture[];
  readonly curve: 'profile' | 'srgb';
  /** What is doubtful of the picture as a whole: mixed-up ladders, the same number twice, coupons cut off. */
  readonly remarks: readonly string[];
}

/**
 * Every coupon of a ladder in one scan, in a thread of its own; they may lie anyhow.
 *
 * @param source a path, or the file's bytes
 * @throws Problem `scan.no-marks`, `image.*`, `scan.unclear`, `file.missing`, `job.cancelled`
 */
export async function readCouponsPicture(
  source: string | Uint8Array,
  options: ReadCouponsOptions = {},
): Promise<ReadCoupons> {
  const { expected, pixelLimit = defaultPixelLimit, signal } = options;
  const {
    coupons: answer,
    curve,
    remarks,
  } = await inThread(
    () => readPressInThread({ what: 'coupons', source, pixelLimit, known: expected ?? null }, signal),
    signal,
  );
  const { coupons, strayMarkers, isSizeUnknown } = answer!;
  if (coupons.length === 0) {
    throw new Problem(
      'scan.no-marks',
      isSizeUnknown && strayMarkers > 0
        ? 'Marks were found, but no coupon’s square code could be read.'
        : 'No coupon was found in the picture.',
      {
        remedy:
          'Lay the coupons flat with their corner marks in view, scan at 300 ppi, and say which ladder it is.',
      },
    );
  }
  return {
    coupons,
    curve,
    remarks: [...couponRemarks(coupons, strayMarkers, expected?.sheetId), ...remarks],
  };
}

/**
 * An evenness sheet in a scan, in a thread of its own.
 *
 * @param order what the sheet was made from
 * @throws Problem as `readCouponsPicture`, and `scan.wrong-sheet`
 */
export async function readEvennessPicture(
  source: string | Uint8Array,
  order: EvennessSheetOrder,
  options: Omit<ReadCouponsOptions, 'expected'> = {},
): Promise<EvennessReading> {
  const { pixelLimit = defaultPixelLimit, signal } = options;
  const { evenness: answer, remarks } = await inThread(
    () => readPressInThread({ what: 'evenness', source, pixelLimit, order }, signal),
    signal,
  );
  if (answer!.kind === 'read') {
    const { reading } = answer!;
    return { ...reading, remarks: [...reading.remarks, ...remarks] };
  }
  if (answer!.kind === 'refused') {
    const { code, message, remedy } = answer!.refusal;
    throw new Problem(code, message, { remedy });
  }
  const { sheetIds } = answer!;
  throw new Problem(
    sheetIds.length > 0 ? 'scan.wrong-sheet' : 'scan.no-marks',
    sheetIds.length > 0
      ? `This is sheet ${sheetIds.map((id) => spokenSheetId(id)).join(' and ')}, not the evenness sheet asked for.`
      : 'No evenness sheet was found in the picture.',
    { remedy: 'Scan the whole evenness sheet alone, flat, at 150 ppi or more.' },
  );
}

function couponRemarks(
  coupons: readonly CouponInPicture[],
  strayMarkers: number,
  expected: string | undefined,
): string[] {
  const ids = new Set(coupons.flatMap(({ sheetId }) => (sheetId === null ? [] : [sheetId])));
  const others = expected === undefined ? [] : [...ids].filter((id) => id !== expected);
  const named = coupons.flatMap(({ sheetId, number }) =>
    number === null ? [] : [`${sheetId ?? ''} ${number}`],
  );
  const twice = new Set(
    named.filter((name, i) => named.indexOf(name) !== i).map((name) => name.split(' ')[1]),
  );
  const codeless = coupons.filter(({ sheetId }) => sheetId === null).length;
  const few = coupons.flatMap(({ number, markersUsed }) =>
    markersUsed < 4 ? [number === null ? 'one without a number' : `${number}`] : [],
  );
  const unnamed = coupons.filter(({ number }) => number === null).length;
  return [
    ...(others.length > 0
      ? [
          `There are coupons of another ladder in the picture: ${others.map((id) => spokenSheetId(id)).join(', ')}.`,
        ]
      : ids.size > 1
        ? ['There are coupons of more than one ladder in the picture.']
        : []),
    ...(twice.size > 0 ? [`Coupon ${[...twice].join(' and ')} is in the picture more than once.`] : []),
    ...(unnamed > 0 ? [`The number of ${unnamed} of ${coupons.length} coupons could not be made out.`] : []),
    ...(codeless > 0
      ? [
          `The square code of ${codeless} of ${coupons.length} coupons could not be read, as when dye has spread far: their numbers come from the cells, and which ladder they are of is not known from them.`,
        ]
      : []),
    ...(few.length > 0
      ? [`Not all corner marks were seen of coupon ${few.join(' and ')}; it may be cut off or bent.`]
      : []),
    ...(strayMarkers > 0
      ? ['There are corner marks that belong to no whole coupon; part of one may be cut off or covered.']
      : []),
  ];
}

async function inThread<Result>(
  work: () => Promise<Result>,
  signal: AbortSignal | undefined,
): Promise<Result> {
  const stopped = (): Problem =>
    new Problem('job.cancelled', 'The reading was stopped.', { remedy: 'Start it again when you like.' });
  if (signal?.aborted) throw stopped();
  try {
    return await work();
  } catch (error) {
    throw signal?.aborted ? stopped() : error;
  }
}
