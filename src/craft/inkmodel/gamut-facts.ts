import { labFromSrgb, type Triple, type Triple3 } from '#craft/colour';
import type { GamutMesh } from './gamut.js';
import type { InkInverse } from './inverse.js';

/** What a printer reaches, in a few numbers. Lab is absolute (D50, 2°). */
export interface GamutFacts {
  /** Device white: the paper or blank as it comes out of the press. */
  readonly whiteLab: Triple;
  /** The darkest colour reached. */
  readonly blackLab: Triple;
  /** Volume of the reachable colours, cubic CIELAB units. */
  readonly volumeLab: number;
  /** Share, 0..1, of sRGB colours (729, evenly over its cube) that are reached, seen beside the own white. */
  readonly srgbShare: number;
}

const srgbSteps = 9;

export function gamutFacts(inverse: InkInverse): GamutFacts {
  const mesh = inverse.surface();
  const corner = (at: number): Triple3 => [mesh.lab[at]!, mesh.lab[at + 1]!, mesh.lab[at + 2]!];
  let white = 0;
  let black = 0;
  for (let i = 0; i < mesh.lab.length; i += 3) {
    if (mesh.lab[i]! < mesh.lab[black]!) black = i;
    if (mesh.rgb[i] === 1 && mesh.rgb[i + 1] === 1 && mesh.rgb[i + 2] === 1) white = i;
  }
  let reached = 0;
  const v = (k: number): number => k / (srgbSteps - 1);
  for (let r = 0; r < srgbSteps; r += 1) {
    for (let g = 0; g < srgbSteps; g += 1) {
      for (let b = 0; b < srgbSteps; b += 1) {
        if (inverse.inGamutRelative(labFromSrgb([v(r), v(g), v(b)]))) reached += 1;
      }
    }
  }
  return {
    whiteLab: corner(white),
    blackLab: corner(black),
    volumeLab: meshVolume(mesh),
    srgbShare: reached / srgbSteps ** 3,
  };
}

/** Volume within a closed surface, cubic CIELAB units: the signed tetrahedra over its triangles (divergence theorem). */
export function meshVolume({ lab, triangles }: GamutMesh): number {
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [p, q, r] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    six +=
      lab[p]! * (lab[q + 1]! * lab[r + 2]! - lab[q + 2]! * lab[r + 1]!) +
      lab[p + 1]! * (lab[q + 2]! * lab[r]! - lab[q]! * lab[r + 2]!) +
      lab[p + 2]! * (lab[q]! * lab[r + 1]! - lab[q + 1]! * lab[r]!);
  }
  return Math.abs(six) / 6;
}
