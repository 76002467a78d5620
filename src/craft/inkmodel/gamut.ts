import {
  d50,
  labFromXyz,
  oklabFromXyzD65,
  type Triple,
  type Triple3,
  xyzD50FromD65,
  xyzD65FromD50,
  xyzD65FromOklab,
  xyzFromLab,
} from '#craft/colour';

/** The reachable colours' surface: device values and Lab of its corners, and triangles between them. */
export interface GamutMesh {
  /** count × 3, 0..1. */
  readonly rgb: Float64Array;
  /** count × 3. */
  readonly lab: Float64Array;
  /** Three corners each, wound outward where the printer keeps the cube's orientation. */
  readonly triangles: Uint32Array;
}

/** The faces of the device cube, which a printer without folds turns into the surface of its colours. */
export function gamutMesh(labOf: (rgb: Float64Array) => Float64Array, steps = 16): GamutMesh {
  const points: number[] = [];
  const triangles: number[] = [];
  for (let axis = 0; axis < 3; axis += 1) {
    for (const side of [0, 1]) {
      const first = points.length / 3;
      for (let i = 0; i <= steps; i += 1) {
        for (let j = 0; j <= steps; j += 1) {
          const p = [0, 0, 0];
          p[axis] = side;
          p[(axis + 1) % 3] = i / steps;
          p[(axis + 2) % 3] = j / steps;
          points.push(...p);
        }
      }
      for (let i = 0; i < steps; i += 1) {
        for (let j = 0; j < steps; j += 1) {
          const a = first + i * (steps + 1) + j;
          const b = a + steps + 1;
          const quad = side === 1 ? [a, b, b + 1, a, b + 1, a + 1] : [a, b + 1, b, a, a + 1, b + 1];
          triangles.push(...quad);
        }
      }
    }
  }
  const rgb = Float64Array.from(points);
  return { rgb, lab: labOf(rgb), triangles: Uint32Array.from(triangles) };
}

/**
 * D50 Lab → Oklab and back, with a little flare added to both white and colour: hue is kept straighter in Oklab than in
 * CIELAB (see craft/colour/oklab.ts), but its cube roots are infinitely steep at black, and a ramp through black would
 * jump. The flare is that of a print seen under common light (0.4 % of white; common practice).
 */
export function oklabOf(lab: Triple): Triple3 {
  const xyz = xyzFromLab(lab);
  return oklabFromXyzD65(xyzD65FromD50([flared(xyz[0], 0), flared(xyz[1], 1), flared(xyz[2], 2)]));
}

export function labOfOklab(oklab: Triple): Triple3 {
  const xyz = xyzD50FromD65(xyzD65FromOklab(oklab));
  return labFromXyz([unflared(xyz[0], 0), unflared(xyz[1], 1), unflared(xyz[2], 2)]);
}

const flare = 0.004;
const flared = (v: number, j: 0 | 1 | 2): number => (v + flare * d50[j]) / (1 + flare);
const unflared = (v: number, j: 0 | 1 | 2): number => v * (1 + flare) - flare * d50[j];

/**
 * A gamut seen hue by hue in Oklab: for each of 360 hues the boundary around a point on the neutral axis (the height
 * of the cusp), as distance by angle, straight down to straight up.
 */
export interface HueGamut {
  /** Lightness of the cusp's foot on the axis, by hue. */
  readonly focus: Float64Array;
  /** hues × angles distances from the focus. */
  readonly reach: Float64Array;
  /** Oklab lightness of the darkest and lightest neutral. */
  readonly black: number;
  readonly white: number;
}

export const hues = 360;
export const angles = 91;

/**
 * @param blurDegrees standard deviation over hues: at a pure ink the surface has a ridge, and ramps that cross it along
 * one hue would change in a step. Inversion settles what then lies a little outside.
 * @param focus the foot by hue to measure from; default: this gamut's own cusps
 */
export function hueGamut(mesh: GamutMesh, blurDegrees: number, focus?: Float64Array): HueGamut {
  const oklab = new Float64Array(mesh.lab.length);
  for (let i = 0; i < oklab.length; i += 3) {
    oklab.set(oklabOf([mesh.lab[i]!, mesh.lab[i + 1]!, mesh.lab[i + 2]!]), i);
  }
  const { black, white } = axisEnds(oklab, mesh.triangles);
  const slices = Array.from({ length: hues }, (_, h) => slice(oklab, mesh.triangles, h));
  const own =
    focus ??
    smoothRound(
      Float64Array.from(slices, (s) => cuspHeight(s, black, white)),
      12,
    );
  const reach = new Float64Array(hues * angles);
  for (let h = 0; h < hues; h += 1) {
    for (let k = 0; k < angles; k += 1) {
      const turn = (Math.PI * k) / (angles - 1) - Math.PI / 2;
      reach[h * angles + k] = farthest(slices[h]!, own[h]!, Math.cos(turn), Math.sin(turn));
    }
    // Straight up and down a ray runs within the half-plane's edge; there the ends of the axis are known.
    reach[h * angles] = own[h]! - black;
    reach[h * angles + angles - 1] = white - own[h]!;
  }
  return { focus: own, reach: blurHues(fillGaps(reach), blurDegrees), black, white };
}

/** Distance from the focus to the boundary at a hue (degrees) and an angle (radians, −π/2 down … π/2 up). */
export function reachAt(gamut: HueGamut, hueDegrees: number, angle: number): number {
  const h = ((hueDegrees % hues) + hues) % hues;
  const h0 = Math.floor(h) % hues;
  const th = h - Math.floor(h);
  const k = Math.min(angles - 1.000001, Math.max(0, ((angle + Math.PI / 2) / Math.PI) * (angles - 1)));
  const k0 = Math.floor(k);
  const tk = k - k0;
  const at = (hue: number, step: number): number => gamut.reach[(hue % hues) * angles + step]!;
  const low = at(h0, k0) * (1 - tk) + at(h0, k0 + 1) * tk;
  const high = at(h0 + 1, k0) * (1 - tk) + at(h0 + 1, k0 + 1) * tk;
  return low * (1 - th) + high * th;
}

export function focusAt(gamut: HueGamut, hueDegrees: number): number {
  const h = ((hueDegrees % hues) + hues) % hues;
  const h0 = Math.floor(h) % hues;
  const t = h - Math.floor(h);
  return gamut.focus[h0]! * (1 - t) + gamut.focus[(h0 + 1) % hues]! * t;
}

/** Where the neutral axis enters and leaves the surface: the darkest and lightest grey that can be reached. */
function axisEnds(oklab: Float64Array, triangles: Uint32Array): { black: number; white: number } {
  let black = Number.POSITIVE_INFINITY;
  let white = Number.NEGATIVE_INFINITY;
  for (let t = 0; t < triangles.length; t += 3) {
    const [p, q, r] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [a1, b1, a2, b2, a3, b3] = [
      oklab[p + 1]!,
      oklab[p + 2]!,
      oklab[q + 1]!,
      oklab[q + 2]!,
      oklab[r + 1]!,
      oklab[r + 2]!,
    ];
    const area = (a2 - a1) * (b3 - b1) - (a3 - a1) * (b2 - b1);
    if (Math.abs(area) < 1e-18) continue;
    const w1 = (a2 * b3 - a3 * b2) / area;
    const w2 = (a3 * b1 - a1 * b3) / area;
    const w3 = 1 - w1 - w2;
    // A hair outside counts: paper white lies on the axis and on the surface's very tip.
    if (Math.min(w1, w2, w3) < -1e-6) continue;
    const light = w1 * oklab[p]! + w2 * oklab[q]! + w3 * oklab[r]!;
    black = Math.min(black, light);
    white = Math.max(white, light);
  }
  if (black < white - 0.05) return { black, white };
  // No grey can be reached at all: the lightest and darkest colours stand in.
  for (let i = 0; i < oklab.length; i += 3) {
    black = Math.min(black, oklab[i]!);
    white = Math.max(white, oklab[i]!);
  }
  return { black, white };
}

/** Segments (C₁, L₁, C₂, L₂) where the surface crosses the half-plane of a hue. */
function slice(oklab: Float64Array, triangles: Uint32Array, hue: number): number[] {
  const turn = (hue * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const out: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const cut: number[] = [];
    for (let e = 0; e < 3; e += 1) {
      const p = 3 * triangles[t + e]!;
      const q = 3 * triangles[t + ((e + 1) % 3)]!;
      const up = -sin * oklab[p + 1]! + cos * oklab[p + 2]!;
      const uq = -sin * oklab[q + 1]! + cos * oklab[q + 2]!;
      if (up < 0 === uq < 0) continue;
      const s = up / (up - uq);
      const a = oklab[p + 1]! + s * (oklab[q + 1]! - oklab[p + 1]!);
      const b = oklab[p + 2]! + s * (oklab[q + 2]! - oklab[p + 2]!);
      cut.push(cos * a + sin * b, oklab[p]! + s * (oklab[q]! - oklab[p]!));
    }
    if (cut.length === 4 && (cut[0]! > 0 || cut[2]! > 0)) out.push(...cut);
  }
  return out;
}

function cuspHeight(segments: readonly number[], black: number, white: number): number {
  let chroma = 0;
  let height = (black + white) / 2;
  for (let i = 0; i < segments.length; i += 2) {
    if (segments[i]! > chroma) {
      chroma = segments[i]!;
      height = segments[i + 1]!;
    }
  }
  // Kept off the tips, where rays would only graze the surface.
  const span = white - black;
  return Math.min(white - 0.15 * span, Math.max(black + 0.2 * span, height));
}

/** Greatest distance along the ray at which it crosses a segment; 0: none. */
function farthest(segments: readonly number[], focus: number, dx: number, dy: number): number {
  let most = 0;
  for (let i = 0; i < segments.length; i += 4) {
    const x1 = segments[i]!;
    const y1 = segments[i + 1]! - focus;
    const ex = segments[i + 2]! - x1;
    const ey = segments[i + 3]! - focus - y1;
    const cross = dx * ey - dy * ex;
    if (Math.abs(cross) < 1e-15) continue;
    const along = (x1 * ey - y1 * ex) / cross;
    const s = (x1 * dy - y1 * dx) / cross;
    if (along > most && s >= -1e-9 && s <= 1 + 1e-9) most = along;
  }
  return most;
}

/** Rays that met nothing (next to the axis) take their neighbours' mean. */
function fillGaps(reach: Float64Array): Float64Array {
  for (let h = 0; h < hues; h += 1) {
    const row = reach.subarray(h * angles, (h + 1) * angles);
    for (let k = 1; k < angles - 1; k += 1) {
      if (row[k]! > 0) continue;
      let next = k + 1;
      while (next < angles - 1 && row[next] === 0) next += 1;
      row[k] = row[k - 1]! + (row[next]! - row[k - 1]!) / (next - k + 1);
    }
  }
  return reach;
}

function blurHues(reach: Float64Array, degrees: number): Float64Array {
  const width = Math.ceil(3 * degrees);
  const weights = Array.from({ length: 2 * width + 1 }, (_, i) =>
    Math.exp(-0.5 * ((i - width) / degrees) ** 2),
  );
  const total = weights.reduce((sum, w) => sum + w, 0);
  const out = new Float64Array(reach.length);
  for (let h = 0; h < hues; h += 1) {
    for (let k = 0; k < angles; k += 1) {
      let sum = 0;
      weights.forEach((w, d) => {
        sum += w * reach[((h + d - width + hues) % hues) * angles + k]!;
      });
      out[h * angles + k] = sum / total;
    }
  }
  return out;
}

function smoothRound(values: Float64Array, width: number): Float64Array {
  return values.map((_, i) => {
    let sum = 0;
    let weight = 0;
    for (let d = -2 * width; d <= 2 * width; d += 1) {
      const w = Math.exp(-0.5 * (d / width) ** 2);
      sum += w * values[(i + d + values.length) % values.length]!;
      weight += w;
    }
    return sum / weight;
  });
}
