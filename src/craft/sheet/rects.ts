import type { RectMm } from './plan.js';

/** The rectangle with `byMm` added on every side; negative shrinks. */
export function grownRect(rect: RectMm, byMm: number): RectMm {
  return {
    xMm: rect.xMm - byMm,
    yMm: rect.yMm - byMm,
    widthMm: rect.widthMm + 2 * byMm,
    heightMm: rect.heightMm + 2 * byMm,
  };
}

/** True when the two share more than an edge. */
export function rectsOverlap(a: RectMm, b: RectMm): boolean {
  return (
    a.xMm < b.xMm + b.widthMm &&
    b.xMm < a.xMm + a.widthMm &&
    a.yMm < b.yMm + b.heightMm &&
    b.yMm < a.yMm + a.heightMm
  );
}

/** True when `inner` lies in `outer`, edges included. */
export function rectContains(outer: RectMm, inner: RectMm): boolean {
  return (
    inner.xMm >= outer.xMm &&
    inner.yMm >= outer.yMm &&
    inner.xMm + inner.widthMm <= outer.xMm + outer.widthMm &&
    inner.yMm + inner.heightMm <= outer.yMm + outer.heightMm
  );
}
