import type { LinearRgb } from '#craft/patchreading';
import { encodeLight } from './encode-light.js';

/** The terms a linear fit is made of, for one colour. */
export type Terms = (rgb: LinearRgb) => number[];

/** Channels and a constant, for stray light. */
export const matrixTerms: Terms = ([r, g, b]) => [r, g, b, 1];

/**
 * Root polynomials of the second and third degree: roots of the products, so that all terms scale with exposure
 * (Finlayson, Mackiewicz & Hurlbert, IEEE Trans. Image Processing 24(5), 2015; terms as listed in the colour-science
 * library, the article itself was not at hand). A constant is added for stray light.
 */
export function rootTerms(degree: 2 | 3): Terms {
  return (rgb) => {
    const [r, g, b] = rgb.map((v) => Math.max(0, v)) as [number, number, number];
    const second = [r, g, b, Math.sqrt(r * g), Math.sqrt(g * b), Math.sqrt(r * b)];
    if (degree === 2) return [...second, 1];
    return [
      ...second,
      ...[r * g * g, g * b * b, r * b * b, g * r * r, b * g * g, b * r * r, r * g * b].map(Math.cbrt),
      1,
    ];
  };
}

/** All products of the encoded channels (about their middle) up to a degree, from the constant on. */
export function cubeRootTerms(degree: 1 | 2 | 3): Terms {
  return (rgb) => {
    const [x, y, z] = encodeLight(rgb).map((v) => 2 * (v - 0.55)) as [number, number, number];
    const out: number[] = [];
    for (let total = 0; total <= degree; total += 1)
      for (let i = total; i >= 0; i -= 1)
        for (let j = total - i; j >= 0; j -= 1) out.push(x ** i * y ** j * z ** (total - i - j));
    return out;
  };
}
