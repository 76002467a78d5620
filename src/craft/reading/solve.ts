/** Least squares by the normal equations, Gauss elimination with pivoting; for the few unknowns of a pose. */
export function leastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
): number[] | null {
  const size = rows[0]?.length ?? 0;
  const system = Array.from({ length: size }, () => new Float64Array(size + 1));
  rows.forEach((row, k) => {
    for (let i = 0; i < size; i += 1) {
      const line = system[i]!;
      for (let j = 0; j < size; j += 1) line[j]! += row[i]! * row[j]!;
      line[size]! += row[i]! * values[k]!;
    }
  });
  for (let i = 0; i < size; i += 1) {
    let best = i;
    for (let j = i + 1; j < size; j += 1) {
      if (Math.abs(system[j]![i]!) > Math.abs(system[best]![i]!)) best = j;
    }
    [system[i], system[best]] = [system[best]!, system[i]!];
    const pivot = system[i]!;
    if (Math.abs(pivot[i]!) < 1e-14) return null;
    for (let j = 0; j < size; j += 1) {
      if (j === i) continue;
      const line = system[j]!;
      const factor = line[i]! / pivot[i]!;
      if (factor === 0) continue;
      for (let k = i; k <= size; k += 1) line[k]! -= factor * pivot[k]!;
    }
  }
  return system.map((line, i) => line[size]! / line[i]!);
}
