import type { Mark, RectMm, SheetPlan } from '#craft/sheet';
import { widthInCaps } from '../label-text.js';

/** What a mark covers: a line of words from its capitals' top to a little below the baseline. */
export function boxOf(mark: Mark): RectMm {
  if (mark.kind !== 'text') return mark.rect;
  const { xMm, yMm, capHeightMm: cap, maxWidthMm, text } = mark;
  return {
    xMm,
    yMm: yMm - cap,
    widthMm: Math.min(maxWidthMm, cap * widthInCaps(text)),
    heightMm: 1.3 * cap,
  };
}

export const printedBoxes = ({ marks }: SheetPlan): RectMm[] => marks.map(boxOf);

export const inside = (inner: RectMm, outer: RectMm): boolean =>
  inner.xMm >= outer.xMm - 1e-6 &&
  inner.yMm >= outer.yMm - 1e-6 &&
  inner.xMm + inner.widthMm <= outer.xMm + outer.widthMm + 1e-6 &&
  inner.yMm + inner.heightMm <= outer.yMm + outer.heightMm + 1e-6;

const overlap = (a: RectMm, b: RectMm): boolean =>
  a.xMm < b.xMm + b.widthMm - 1e-6 &&
  b.xMm < a.xMm + a.widthMm - 1e-6 &&
  a.yMm < b.yMm + b.heightMm - 1e-6 &&
  b.yMm < a.yMm + a.heightMm - 1e-6;

/** Pairs of marks that cover each other, in words. */
export function overlaps(plan: SheetPlan, counts: (mark: Mark) => boolean = () => true): string[] {
  const boxes = plan.marks.filter(counts).map((mark) => ({
    box: boxOf(mark),
    name: mark.kind === 'text' ? `“${mark.text}”` : mark.role,
  }));
  return boxes.flatMap((one, i) =>
    boxes
      .slice(i + 1)
      .flatMap((other) => (overlap(one.box, other.box) ? [`${one.name} and ${other.name}`] : [])),
  );
}
