/** The outline inside a piece's box; pixels whose centre lies outside stay paper. */
export type ClipForm =
  | { readonly kind: 'ellipse' }
  | { readonly kind: 'rectangle'; readonly cornerRadius: number };

/** First and one-past-last pixel of a row inside the form; equal when the row is empty. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Row `y` (0 at the top of the box) of a form that fills a box of `width` × `height` pixels. */
export function clipSpan(form: ClipForm, width: number, height: number, y: number): Span {
  const inset =
    form.kind === 'ellipse'
      ? ellipseInset(width, height, y)
      : cornerInset(form.cornerRadius, width, height, y);
  if (inset >= width / 2) return { from: 0, to: 0 };
  // A pixel is in when its centre (x + ½) is not left of the inset.
  const from = Math.max(0, Math.ceil(inset - 0.5));
  return { from, to: Math.max(from, width - from) };
}

function ellipseInset(width: number, height: number, y: number): number {
  const b = height / 2;
  const v = (y + 0.5 - b) / b;
  return v * v >= 1 ? width : (width / 2) * (1 - Math.sqrt(1 - v * v));
}

function cornerInset(cornerRadius: number, width: number, height: number, y: number): number {
  const r = Math.min(cornerRadius, width / 2, height / 2);
  const fromEdge = Math.min(y + 0.5, height - y - 0.5);
  if (fromEdge >= r) return 0;
  const v = r - fromEdge;
  return r - Math.sqrt(Math.max(0, r * r - v * v));
}
