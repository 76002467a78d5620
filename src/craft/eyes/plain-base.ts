import { deltaE00, labFromSrgb, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { ColourModel } from '#craft/inkmodel';

/** Black of a good pressed print and the bare ground, absolute L*: common practice, nobody measured them here. */
export const plainBlackL = 15;
export const plainGroundL = 95;

const yOf = (l: number): number => xyzFromLab([l, 0, 0])[1];
export const plainBlackY = yOf(plainBlackL) / yOf(plainGroundL);

/**
 * What drivers take RGB for: sRGB, its black lifted to `blackY` of the ground's luminance, on a neutral ground of
 * lightness `groundL`.
 */
export function plainBase(blackY: number, groundL: number): ColourModel {
  const ground = yOf(groundL);
  const labOf = (rgb: Triple): Triple3 => {
    const clipped = rgb.map((v) => Math.min(1, Math.max(0, v))) as Triple3;
    const [x, y, z] = xyzFromLab(labFromSrgb(clipped));
    const [wx, wy, wz] = xyzFromLab([100, 0, 0]);
    const lift = (v: number, white: number): number => ground * (blackY * white + (1 - blackY) * v);
    return labFromXyz([lift(x, wx), lift(y, wy), lift(z, wz)]);
  };
  const sdLab: Triple = [0, 0, 0];
  return {
    predict: (rgb) => rgb.map((one) => ({ lab: labOf(one), sdLab, expectedDeltaE00: 0 })),
    predictLab(rgb) {
      const out = new Float64Array(rgb.length);
      for (let i = 0; i < rgb.length; i += 3) out.set(labOf([rgb[i]!, rgb[i + 1]!, rgb[i + 2]!]), i);
      return out;
    },
  };
}

/** Mean length of a normal vector over its root mean square, three equal coordinates (Maxwell: 2√(2/π)/√3). */
const meanOverRms = 0.9213;

/** CIEDE2000 is nearly a quadratic form over so small distances: the root of its mean, then the mean length. */
export function expectedDifference(lab: Triple, sd: Triple): number {
  let square = 0;
  for (let j = 0; j < 3; j += 1) {
    const shifted: Triple3 = [lab[0], lab[1], lab[2]];
    shifted[j] = shifted[j]! + sd[j]!;
    square += deltaE00(lab, shifted) ** 2;
  }
  return meanOverRms * Math.sqrt(square);
}
