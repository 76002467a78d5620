/**
 * Piecewise cubic through points that keeps rising data rising (Fritsch & Carlson, SIAM J. Numer. Anal. 17(2), 1980;
 * slopes by the weighted harmonic mean of Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5(2), 1984). Beyond the ends
 * it stays at their values.
 * @param x strictly rising, at least two
 */
export function monotoneCubic(x: readonly number[], y: readonly number[]): (at: number) => number {
  const n = x.length;
  const h = Array.from({ length: n - 1 }, (_, i) => x[i + 1]! - x[i]!);
  const d = h.map((step, i) => (y[i + 1]! - y[i]!) / step);
  const slope = x.map((_, i) => {
    if (i === 0) return endSlope(h[0]!, h[1] ?? h[0]!, d[0]!, d[1] ?? d[0]!);
    if (i === n - 1) return endSlope(h[n - 2]!, h[n - 3] ?? h[n - 2]!, d[n - 2]!, d[n - 3] ?? d[n - 2]!);
    const [before, after] = [d[i - 1]!, d[i]!];
    if (before * after <= 0) return 0;
    const w1 = 2 * h[i]! + h[i - 1]!;
    const w2 = h[i]! + 2 * h[i - 1]!;
    return (w1 + w2) / (w1 / before + w2 / after);
  });
  return (at) => {
    if (at <= x[0]!) return y[0]!;
    if (at >= x[n - 1]!) return y[n - 1]!;
    let i = 0;
    while (at >= x[i + 1]!) i += 1;
    const t = (at - x[i]!) / h[i]!;
    const u = 1 - t;
    return (
      y[i]! * u * u * (1 + 2 * t) +
      y[i + 1]! * t * t * (3 - 2 * t) +
      h[i]! * t * u * (slope[i]! * u - slope[i + 1]! * t)
    );
  };
}

/** Three-point formula at an end, held to the shape of the data. */
function endSlope(h0: number, h1: number, d0: number, d1: number): number {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  if (d0 * d1 <= 0 && Math.abs(slope) > 3 * Math.abs(d0)) return 3 * d0;
  return slope;
}
