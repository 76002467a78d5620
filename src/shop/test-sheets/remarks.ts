import type { PrintSetup } from '#contract';
import type { FoundOrder } from './found-order.js';
import { isPressedRound } from './found-press.js';
import { couponSide, millimetres, type TestSheetSize } from './sheet-size.js';

/** What the person should know before printing and pressing this sheet, one sentence each, the gravest first. */
export function remarksFor(found: FoundOrder, size: TestSheetSize): string[] {
  const { order, blank, setup } = found;
  return [
    ...pressRemarks(found),
    ...faceRemarks(found, size),
    ...(blank.coating.seenThrough
      ? [
          'The dye lies behind the glass. Scan the side that was pressed: seen through the glass the sheet reads backwards.',
        ]
      : []),
    ...(order.kind === 'colour' || order.kind === 'follow-up'
      ? ['It is printed in plain device colour: set the driver just as you do for your work.']
      : []),
    ...(setup.mirroredBy === 'driver'
      ? ['The file is not mirrored: the driver must mirror it, as this print setup says.']
      : []),
    ...smallPaperRemarks(setup, size),
  ];
}

/** Ladders: what else decides whether the coupons tell of the work. */
function pressRemarks({ order, blank, material, press }: FoundOrder): string[] {
  if (order.kind !== 'ladder') return [];
  const isRound = blank.shape.kind === 'cylinder';
  return [
    ...(press?.press.kind === 'mug' && !isRound
      ? [`“${press.press.name}” presses round things, and “${blank.name}” is flat: name another press.`]
      : []),
    ...(blank.material === 'textile' && material === 'hard'
      ? ['On cloth marks this small drown in the threads: choose coupons for cloth.']
      : []),
    isRound
      ? 'Each coupon spends one piece.'
      : 'Each coupon spends one piece, or scrap of the very same kind: a thinner piece or another pad is another recipe.',
  ];
}

function faceRemarks({ order, blank, material, press }: FoundOrder, size: TestSheetSize): string[] {
  const { shape, name } = blank;
  const isLadder = order.kind === 'ladder';
  if (shape.kind === 'cylinder') {
    return [
      isLadder
        ? isPressedRound(blank, press)
          ? `“${name}” is round, and a scanner reads flat things: judge its coupons by eye, or press them on flat pieces of the same coating under a flat press.`
          : `“${name}” is round, and a scanner reads flat things: press the coupons on flat pieces of the same coating, or name a mug press and judge them by eye.`
        : `“${name}” is round, and a scanner reads flat things: press the sheet on a flat piece of the same coating, for as long and as hot as the maker of that piece says.`,
    ];
  }
  // The largest upright rectangle of the face's own proportions inside an ellipse is 1/√2 of it each way.
  const share = shape.kind === 'ellipse' ? Math.SQRT1_2 : 1;
  const [w, h] = [share * shape.widthMm, share * shape.heightMm];
  const fits = (a: number, b: number): boolean => a <= w + 0.5 && b <= h + 0.5;
  const couponMm = isLadder ? couponSide(order, material) : 0;
  const widthMm = isLadder ? couponMm : size.widthMm;
  const heightMm = isLadder ? couponMm : size.heightMm;
  if (fits(widthMm, heightMm) || fits(heightMm, widthMm)) return [];
  const face = `the face of “${name}” (${millimetres(shape.widthMm)} × ${millimetres(shape.heightMm)} mm)`;
  if (isLadder)
    return [
      `A coupon of ${millimetres(couponMm)} mm is larger than ${face}: press it on a larger piece of the same body and coating.`,
    ];
  if (order.kind === 'evenness')
    return [
      `The sheet is larger than ${face}: press it on polyester cloth or a coated sheet as large as the platen.`,
    ];
  return [
    `The sheet is larger than ${face}: press it on a larger flat piece of the same coating, or choose a sheet of ${millimetres(Math.floor(w))} × ${millimetres(Math.floor(h))} mm.`,
  ];
}

function smallPaperRemarks({ paper }: PrintSetup, { widthMm, heightMm }: TestSheetSize): string[] {
  const [short, long] = [Math.min(widthMm, heightMm), Math.max(widthMm, heightMm)];
  const smaller = paper.roll
    ? widthMm < paper.widthMm - 1
    : short < Math.min(paper.widthMm, paper.heightMm) - 1 ||
      long < Math.max(paper.widthMm, paper.heightMm) - 1;
  return smaller ? ['It is smaller than the paper: print it at 100 %, then cut it out along its edge.'] : [];
}
