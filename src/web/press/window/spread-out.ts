/** Places that fall on one another are set side by side, round their common place, `gap` apart. */
export function spreadOut(places: readonly (readonly [number, number])[], gap: number): [number, number][] {
  const near = (a: readonly [number, number], b: readonly [number, number]) =>
    Math.abs(a[0] - b[0]) < gap / 3 && Math.abs(a[1] - b[1]) < gap / 3;
  const out: [number, number][] = places.map(([x, y]) => [x, y]);
  const done = new Set<number>();
  places.forEach((place, i) => {
    if (done.has(i)) return;
    const group = places.flatMap((other, j) => (j >= i && !done.has(j) && near(place, other) ? [j] : []));
    group.forEach((j, k) => {
      done.add(j);
      out[j] = [place[0], place[1] + (k - (group.length - 1) / 2) * gap];
    });
  });
  return out;
}
