/** Value of a sampled course at a time, on straight lines; the ends hold. Of two samples at one time, the first. */
export function valueAt(seconds: ArrayLike<number>, values: ArrayLike<number>, at: number): number {
  if (at <= seconds[0]!) return values[0]!;
  for (let i = 1; i < values.length; i += 1) {
    if (at > seconds[i]!) continue;
    const h = seconds[i]! - seconds[i - 1]!;
    return h === 0
      ? values[i]!
      : values[i - 1]! + ((at - seconds[i - 1]!) / h) * (values[i]! - values[i - 1]!);
  }
  return values[values.length - 1]!;
}

/** When a rising course first reaches a value; null if it does not. Straight lines between samples. */
export function firstReaches(
  seconds: ArrayLike<number>,
  values: ArrayLike<number>,
  wanted: number,
): number | null {
  for (let i = 0; i < values.length; i += 1) {
    if (!(values[i]! >= wanted)) continue;
    const before = values[i - 1];
    if (before === undefined || Number.isNaN(before)) return seconds[i]!;
    const share = (wanted - before) / (values[i]! - before);
    return seconds[i - 1]! + share * (seconds[i]! - seconds[i - 1]!);
  }
  return null;
}
