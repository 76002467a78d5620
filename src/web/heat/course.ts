/** The value of a course at a moment, straight between its points; its ends beyond them. */
export function valueAt(seconds: readonly number[], values: readonly number[], at: number): number {
  const next = seconds.findIndex((second) => second >= at);
  if (next === -1) return values.at(-1) ?? 0;
  const [t1 = 0, v1 = 0] = [seconds[next], values[next]];
  if (next === 0) return v1;
  const [t0 = 0, v0 = 0] = [seconds[next - 1], values[next - 1]];
  return t1 === t0 ? v1 : v0 + ((v1 - v0) * (at - t0)) / (t1 - t0);
}

/** The points of a course up to a moment, and the one at that moment. */
export function within(
  seconds: readonly number[],
  values: readonly number[],
  until: number,
): [number, number][] {
  const points = seconds.flatMap((second, i): [number, number][] =>
    second < until ? [[second, values[i] ?? 0]] : [],
  );
  points.push([until, valueAt(seconds, values, until)]);
  return points;
}
