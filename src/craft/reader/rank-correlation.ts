/** Spearman's rank correlation; equal values share their mean rank. 0 when one of them does not vary. */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const [x, y] = [ranks(a), ranks(b)];
  const middle = (a.length + 1) / 2;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  x.forEach((rank, i) => {
    xy += (rank - middle) * (y[i]! - middle);
    xx += (rank - middle) ** 2;
    yy += (y[i]! - middle) ** 2;
  });
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((i, j) => values[i]! - values[j]!);
  const out = new Array<number>(values.length).fill(0);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && values[order[to]!] === values[order[from]!]) to += 1;
    for (let k = from; k < to; k += 1) out[order[k]!] = (from + to + 1) / 2;
    from = to;
  }
  return out;
}
