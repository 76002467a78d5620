import type { Blank, Press, PrintSetup, TestSheetOrder } from '#contract';
import { Problem } from '#craft/problem';
import { couponGrid, leastCouponMm, planColourSheet, type SheetMaterial } from '#craft/testsheet';

export interface TestSheetSize {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
}

/** As much of a roll as is drawn off for a sheet of which nobody said how long it should be. */
const rollLengthsMm = { least: 100, most: 420, step: 20 } as const;
/** Patches of this size are read well at 300 ppi by any scanner; on a roll, length beyond that is wasted. */
const comfortablePatchMm = { hard: 7, fabric: 14 } as const;

export const materialFor = (order: TestSheetOrder, blank: Blank): SheetMaterial =>
  order.material ?? (blank.material === 'textile' ? 'fabric' : 'hard');

/**
 * The sheet as asked for, else the setup's paper; an evenness sheet no larger than its platen.
 * @throws Problem `sheet.impossible` for a sheet that the paper does not hold
 */
export function sheetSize(
  order: TestSheetOrder,
  { paper }: PrintSetup,
  material: SheetMaterial,
  press: Press | null,
): TestSheetSize {
  const { marginMm } = paper;
  const usual = order.kind === 'evenness' && press !== null ? onPlaten(paper, press) : paper;
  const widthMm = order.widthMm ?? usual.widthMm;
  const heightMm =
    order.heightMm ??
    (paper.roll && usual === paper
      ? Math.min(paper.heightMm, rollLength({ widthMm, marginMm }, material, order))
      : usual.heightMm);
  if (!holds(paper, widthMm, heightMm)) {
    throw new Problem(
      'sheet.impossible',
      `A sheet of ${sizeWords(widthMm, heightMm)} is larger than the paper, ${sizeWords(paper.widthMm, paper.heightMm)}.`,
      { remedy: 'Choose a smaller sheet, or a print setup with larger paper.' },
    );
  }
  return { widthMm, heightMm, marginMm };
}

/** Either way round. */
export function holds(paper: PrintSetup['paper'], widthMm: number, heightMm: number): boolean {
  const hair = 0.01;
  const fits = (width: number, height: number): boolean =>
    width <= paper.widthMm + hair && height <= paper.heightMm + hair;
  return fits(widthMm, heightMm) || fits(heightMm, widthMm);
}

/** As much of the platen as the paper covers, its width across, whichever way the paper goes through the printer. */
function onPlaten(paper: PrintSetup['paper'], press: Press): { widthMm: number; heightMm: number } {
  const { platenWidthMm: width, platenDepthMm: depth } = press;
  const along = { widthMm: Math.min(paper.widthMm, width), heightMm: Math.min(paper.heightMm, depth) };
  const across = { widthMm: Math.min(paper.heightMm, width), heightMm: Math.min(paper.widthMm, depth) };
  return across.widthMm * across.heightMm > along.widthMm * along.heightMm ? across : along;
}

function rollLength(
  across: { widthMm: number; marginMm: number },
  material: SheetMaterial,
  order: TestSheetOrder,
): number {
  const { least, most, step } = rollLengthsMm;
  if (order.kind === 'ladder') {
    for (let heightMm = least; heightMm < most; heightMm += step)
      if (couponsOn({ ...across, heightMm }, couponSide(order, material)) >= order.coupons) return heightMm;
    return most;
  }
  if (!('patches' in order)) return 297;
  const { patches } = order;
  for (let heightMm = least; heightMm < most; heightMm += step) {
    if (patchSizeOn({ ...across, heightMm }, material, patches) >= comfortablePatchMm[material])
      return heightMm;
  }
  return most;
}

export const couponSide = (order: { couponMm?: number | undefined }, material: SheetMaterial): number =>
  order.couponMm ?? leastCouponMm(material);

/** How many square coupons go on a sheet. */
export function couponsOn(size: TestSheetSize, couponMm: number): number {
  const { columns, rows } = couponGrid(size, couponMm, couponMm);
  return columns * rows;
}

/** The smallest usual sheet that holds so many coupons, one that the paper holds before others; null: none. */
export function sheetForCoupons(
  { marginMm }: TestSheetSize,
  { couponMm, coupons, paper }: { couponMm: number; coupons: number; paper: PrintSetup['paper'] },
): { readonly words: string; readonly isOnPaper: boolean } | null {
  const isAmerican = /^(Letter|Tabloid)/.test(sizeWords(paper.widthMm, paper.heightMm));
  const rank = ([name, w, h]: (typeof names)[number]): number =>
    (holds(paper, w, h) ? 0 : 1e9) + (/^A\d/.test(name) === isAmerican ? 1e8 : 0) + w * h;
  const [found] = names
    .filter(([, w, h]) => couponsOn({ widthMm: w, heightMm: h, marginMm }, couponMm) >= coupons)
    .sort((a, b) => rank(a) - rank(b));
  return found === undefined ? null : { words: found[0], isOnPaper: holds(paper, found[1], found[2]) };
}

/** The smallest of A6, A5 and A4 on which the patches are still comfortable, and how large they are there; null: none. */
export function smallerSheet(
  { widthMm, heightMm, marginMm }: TestSheetSize,
  material: SheetMaterial,
  patches: number,
): { readonly words: string; readonly patchMm: number } | null {
  for (const [words, w, h] of names.filter(([name]) => /^A[654]$/.test(name)).reverse()) {
    if (w * h > 0.6 * widthMm * heightMm) return null;
    const patchMm = patchSizeOn({ widthMm: w, heightMm: h, marginMm }, material, patches);
    if (patchMm >= comfortablePatchMm[material]) return { words, patchMm };
  }
  return null;
}

function patchSizeOn(size: TestSheetSize, material: SheetMaterial, patches: number): number {
  try {
    const grey = Array.from({ length: patches }, () => ({ rgb: [0.5, 0.5, 0.5] as const }));
    const { layout } = planColourSheet({
      ...size,
      // Any id will do: only the room for patches is asked for.
      sheetId: '0000000000',
      material,
      patches: grey,
      seed: 0,
      mirrorOnWriting: false,
    });
    return layout.pitchMm - layout.gapMm;
  } catch {
    return 0;
  }
}

/** Names of ISO 216 and the two North American sizes that everyone calls by name, else millimetres. */
export function sizeWords(widthMm: number, heightMm: number): string {
  const [short, long] = [Math.min(widthMm, heightMm), Math.max(widthMm, heightMm)];
  const named = names.find(([, w, h]) => Math.abs(w - short) < 0.6 && Math.abs(h - long) < 0.6);
  if (named) return widthMm > heightMm ? `${named[0]} across` : named[0];
  return `${millimetres(widthMm)} × ${millimetres(heightMm)} mm`;
}

const names: readonly (readonly [string, number, number])[] = [
  ['A3', 297, 420],
  ['A4', 210, 297],
  ['A5', 148, 210],
  ['A6', 105, 148],
  ['Letter', 215.9, 279.4],
  ['Tabloid', 279.4, 431.8],
];

export const millimetres = (mm: number): string => String(Math.round(mm * 10) / 10);
