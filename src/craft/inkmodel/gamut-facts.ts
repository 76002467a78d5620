import { srgbFromLab, type Triple, type Triple3 } from '#craft/colour';
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
  /** Share, 0..1, of the volume of sRGB in CIELAB that is reached, seen beside the own white. */
  readonly srgbShare: number;
}

/** Lab units between the colours that are tried. */
const latticeStep = 6;

export function gamutFacts(inverse: InkInverse): GamutFacts {
  const mesh = inverse.surface();
  const corner = (at: number): Triple3 => [mesh.lab[at]!, mesh.lab[at + 1]!, mesh.lab[at + 2]!];
  let white = 0;
  let black = 0;
  for (let i = 0; i < mesh.lab.length; i += 3) {
    if (mesh.lab[i]! < mesh.lab[black]!) black = i;
    if (mesh.rgb[i] === 1 && mesh.rgb[i + 1] === 1 && mesh.rgb[i + 2] === 1) white = i;
  }
  let within = 0;
  let reached = 0;
  for (let l = latticeStep / 2; l < 100; l += latticeStep) {
    for (let a = -128; a <= 128; a += latticeStep) {
      for (let b = -128; b <= 128; b += latticeStep) {
        if (srgbFromLab([l, a, b]).some((v) => v < 0 || v > 1)) continue;
        within += 1;
        if (inverse.inGamutRelative([l, a, b])) reached += 1;
      }
    }
  }
  return {
    whiteLab: corner(white),
    blackLab: corner(black),
    volumeLab: meshVolume(mesh),
    srgbShare: reached / within,
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
