import type { PathLook } from '#contract';

/** A surface as the shop hands it over: L, a, b of each corner, three bytes of screen colour, three corners a triangle. */
export type Surface = PathLook['gamut'];

/** A line piece in CIELAB: L, a, b of both its ends. */
export type Cut = readonly [number, number, number, number, number, number];

/**
 * Where a surface crosses the plane on which `heightOf` is 0, one line piece a triangle. A corner that lies just on the
 * plane counts as above it, so that closed surfaces give closed lines.
 */
export function cutSurface(surface: Surface, heightOf: (l: number, a: number, b: number) => number): Cut[] {
  const { lab, triangles } = surface;
  const height = new Float64Array(lab.length / 3);
  for (let i = 0; i < height.length; i += 1) {
    height[i] = heightOf(lab[3 * i] ?? 0, lab[3 * i + 1] ?? 0, lab[3 * i + 2] ?? 0);
  }
  const out: Cut[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const ends: number[] = [];
    for (let e = 0; e < 3; e += 1) {
      const p = triangles[t + e] ?? 0;
      const q = triangles[t + ((e + 1) % 3)] ?? 0;
      const hp = height[p] ?? 0;
      const hq = height[q] ?? 0;
      if (hp < 0 === hq < 0) continue;
      const s = hp / (hp - hq);
      for (let k = 0; k < 3; k += 1) {
        const from = lab[3 * p + k] ?? 0;
        ends.push(from + s * ((lab[3 * q + k] ?? 0) - from));
      }
    }
    if (ends.length === 6) out.push(ends as unknown as Cut);
  }
  return out;
}

/** All colours of one lightness on the surface. */
export const cutAtLightness = (surface: Surface, lightness: number): Cut[] =>
  cutSurface(surface, (l) => l - lightness);

/** Both sides of the neutral axis: the hue itself and the one opposite. */
export function cutAtHue(surface: Surface, hueDegrees: number): Cut[] {
  const turn = (hueDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return cutSurface(surface, (_l, a, b) => cos * b - sin * a);
}

/** The cut's parts on the side of the hue, where chroma is counted upward. */
export function cutOfHue(surface: Surface, hueDegrees: number): { chroma: number; lightness: number }[] {
  const turn = (hueDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return cutAtHue(surface, hueDegrees).flatMap(([l1, a1, b1, l2, a2, b2]) =>
    [
      { chroma: cos * a1 + sin * b1, lightness: l1 },
      { chroma: cos * a2 + sin * b2, lightness: l2 },
    ].filter((end) => end.chroma >= 0),
  );
}

/**
 * Stretches of a* within the surface along one row of b*, at the lightness of the cut: pairs from, to. Even-odd, as the
 * outline of a solid is crossed in and out again.
 */
export function within(cuts: readonly Cut[], b: number): [number, number][] {
  const at: number[] = [];
  for (const [, a1, b1, , a2, b2] of cuts) {
    if (b1 < b === b2 < b) continue;
    at.push(a1 + ((b - b1) / (b2 - b1)) * (a2 - a1));
  }
  at.sort((one, two) => one - two);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < at.length; i += 2) out.push([at[i] ?? 0, at[i + 1] ?? 0]);
  return out;
}
