/** Cosine and sine of an angle in degrees, exact at whole quarters so that right-angled placings keep exact sizes. */
export function cosSin(degrees: number): { readonly cos: number; readonly sin: number } {
  const quarter = degrees / 90;
  if (Number.isInteger(quarter)) {
    const exact = [
      { cos: 1, sin: 0 },
      { cos: 0, sin: 1 },
      { cos: -1, sin: 0 },
      { cos: 0, sin: -1 },
    ] as const;
    return exact[((quarter % 4) + 4) % 4]!;
  }
  const radians = (degrees * Math.PI) / 180;
  return { cos: Math.cos(radians), sin: Math.sin(radians) };
}
