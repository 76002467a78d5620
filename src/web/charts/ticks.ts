/** Round steps (1, 2 or 5 times a power of ten) from `min` to `max`, at most `most` + 1 of them. */
export function roundTicks(min: number, max: number, most: number): number[] {
  const span = max - min;
  if (!(span > 0) || !Number.isFinite(span)) return [min];
  const rough = span / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((factor) => factor * power >= rough) ?? 10);
  const first = Math.ceil(min / step - 1e-9);
  const last = Math.floor(max / step + 1e-9);
  // Counted, not added up: no 0.30000000000000004.
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** Positions along a line, moved apart so that each is at least `gap` from the next, within `min`..`max`. */
export function apart(wanted: readonly number[], gap: number, min: number, max: number): number[] {
  const order = wanted.map((at, i) => ({ at, i })).sort((one, two) => one.at - two.at);
  let floor = min;
  for (const one of order) {
    one.at = Math.max(one.at, floor);
    floor = one.at + gap;
  }
  let ceiling = max;
  for (const one of [...order].reverse()) {
    one.at = Math.min(one.at, ceiling);
    ceiling = one.at - gap;
  }
  const out = new Array<number>(wanted.length);
  for (const { at, i } of order) out[i] = at;
  return out;
}
