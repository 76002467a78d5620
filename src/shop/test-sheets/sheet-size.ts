import type { Blank, PrintSetup, TestSheetOrder } from '#contract';
import { Problem } from '#craft/problem';
import { planColourSheet, type SheetMaterial } from '#craft/testsheet';

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
 * The sheet as asked for, else the setup's paper.
 * @param patches of a chart; null for sheets for eyes only
 * @throws Problem `sheet.impossible` for a sheet that the paper does not hold
 */
export function sheetSize(
  order: TestSheetOrder,
  { paper }: PrintSetup,
  material: SheetMaterial,
  patches: number | null,
): TestSheetSize {
  const { marginMm } = paper;
  const widthMm = order.widthMm ?? paper.widthMm;
  const heightMm =
    order.heightMm ??
    (paper.roll
      ? Math.min(paper.heightMm, rollLength({ widthMm, marginMm }, material, patches))
      : paper.heightMm);
  const hair = 0.01;
  const fits = (width: number, height: number): boolean =>
    width <= paper.widthMm + hair && height <= paper.heightMm + hair;
  if (!fits(widthMm, heightMm) && !fits(heightMm, widthMm)) {
    throw new Problem(
      'sheet.impossible',
      `A sheet of ${sizeWords(widthMm, heightMm)} is larger than the paper, ${sizeWords(paper.widthMm, paper.heightMm)}.`,
      { remedy: 'Choose a smaller sheet, or a print setup with larger paper.' },
    );
  }
  return { widthMm, heightMm, marginMm };
}

function rollLength(
  across: { widthMm: number; marginMm: number },
  material: SheetMaterial,
  patches: number | null,
): number {
  const { least, most, step } = rollLengthsMm;
  if (patches === null) return 297;
  for (let heightMm = least; heightMm < most; heightMm += step) {
    if (patchSizeOn({ ...across, heightMm }, material, patches) >= comfortablePatchMm[material])
      return heightMm;
  }
  return most;
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
