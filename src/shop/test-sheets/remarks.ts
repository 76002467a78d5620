import type { Blank, PrintSetup, TestSheetOrder } from '#contract';
import { millimetres, type TestSheetSize } from './sheet-size.js';

/** What the person should know before printing and pressing this sheet, one sentence each, the gravest first. */
export function remarksFor(
  order: TestSheetOrder,
  blank: Blank,
  setup: PrintSetup,
  size: TestSheetSize,
): string[] {
  return [
    ...faceRemarks(blank, size),
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

function faceRemarks({ shape, name }: Blank, { widthMm, heightMm }: TestSheetSize): string[] {
  if (shape.kind === 'cylinder') {
    return [
      `“${name}” is round, and a scanner reads flat things: press the sheet on a flat piece of the same coating, for as long and as hot as the maker of that piece says.`,
    ];
  }
  // The largest upright rectangle of the face's own proportions inside an ellipse is 1/√2 of it each way.
  const share = shape.kind === 'ellipse' ? Math.SQRT1_2 : 1;
  const [w, h] = [share * shape.widthMm, share * shape.heightMm];
  const fits = (a: number, b: number): boolean => a <= w + 0.5 && b <= h + 0.5;
  if (fits(widthMm, heightMm) || fits(heightMm, widthMm)) return [];
  return [
    `The sheet is larger than the face of “${name}” (${millimetres(shape.widthMm)} × ${millimetres(shape.heightMm)} mm): press it on a larger flat piece of the same coating, or choose a sheet of ${millimetres(Math.floor(w))} × ${millimetres(Math.floor(h))} mm.`,
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
