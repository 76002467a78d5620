/** Linear between the ordered values (type 7 of Hyndman & Fan, Am. Stat. 50, 1996). NaN of nothing. */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) return Number.NaN;
  const sorted = values.toSorted((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const [a, b] = [sorted[low]!, sorted[Math.min(sorted.length - 1, low + 1)]!];
  return a === b ? a : a + (at - low) * (b - a);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);
