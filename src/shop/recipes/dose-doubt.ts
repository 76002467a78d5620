import type { Blank, RecipeGround } from '#contract';

/**
 * How much the joints of one blank differ from another's on the same press (a stone is rougher than a plate): standard
 * deviation of the logarithm. A judgement.
 */
export const contactsDifferLog = 0.35;

/**
 * How far the dose that one blank wants may lie from what another's recipe gives it, as the standard deviation of its
 * logarithm. Two things: how alike the blanks are (made of, coated with, warmth they take up), and how firmly the known
 * recipe stands. Common practice gives stones and glass many times the dose of thin plates by this model: its recipes leave
 * room, the model leaves things out, or both; what is carried over must be as doubtful as that. Judgements, sized by
 * holding the ranges to that practice in `suggest.test.ts`.
 * @param warmthRatio warmth per area that one takes up over the other's
 */
export function doseDoubtLog(
  known: Blank,
  blank: Blank,
  warmthRatio: number,
  ground: RecipeGround['kind'] = 'stock',
): number {
  const kinds =
    known.coating.kind !== blank.coating.kind ? 0.6 : known.material !== blank.material ? 0.5 : 0.2;
  const firm = { ladder: 0.1, typed: 0.5, stock: 0.6, heat: 0.9 }[ground];
  return Math.hypot(kinds, 0.3 * Math.log(warmthRatio), firm);
}
