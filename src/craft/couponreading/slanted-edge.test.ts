import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import type { SampledPicture } from '#craft/patchreading';
import { measureEdge } from './index.js';

/** A picture of 16 bits whose samples are linear light. */
const straight = Float32Array.from({ length: 65536 }, (_, i) => i / 65535);
const side = 120;

/** Light from the signed distance to an edge through the middle, turned by so many degrees from upright. */
function pictureOf(degrees: number, lightAt: (distance: number) => number): SampledPicture {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const data = new Uint16Array(side * side * 3);
  for (let y = 0; y < side; y += 1) {
    for (let x = 0; x < side; x += 1) {
      const distance = (x + 0.5 - side / 2) * cos + (y + 0.5 - side / 2) * sin;
      data.fill(
        Math.round(65535 * Math.min(1, Math.max(0, lightAt(distance)))),
        3 * (y * side + x),
        3 * (y * side + x) + 3,
      );
    }
  }
  return { width: side, height: side, data, toLinear: [straight, straight, straight] };
}

/** Integral of the Gaussian by Simpson's rule: nothing of the program's own. */
function gaussianStep(z: number): number {
  if (z < -8) return 0;
  if (z > 8) return 1;
  const n = 400;
  const h = (z + 8) / n;
  let sum = 0;
  for (let i = 0; i <= n; i += 1)
    sum += (i === 0 || i === n ? 1 : i % 2 ? 4 : 2) * Math.exp(-0.5 * (-8 + i * h) ** 2);
  return (sum * h) / 3 / Math.sqrt(2 * Math.PI);
}

/** The expected line lies a little beside the edge, as it does in a scan. */
function measured(picture: SampledPicture, degrees: number, aside = 0.8, reach = 22) {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const middle = side / 2;
  const at = (along: number, off: number) => ({
    x: middle - along * sin + off * cos,
    y: middle + along * cos + off * sin,
  });
  const edge = measureEdge(picture, at(-35, aside), at(35, aside + 0.5), at(0, -15), reach);
  if (typeof edge === 'string') throw new Error(edge);
  return edge;
}

/** Gaussian blur σ: 10–90 % is 2·1.28155σ = 2.5631σ; exp(−2π²σ²f²) = 1/2 at f = √(ln 2/2)/(πσ) = 0.18739/σ. */
describe('a slanted edge of known blur', () => {
  it.each([
    [5, 0.8],
    [5, 1.3],
    [-5, 2],
    [8.5, 3],
    [95, 1.3],
    [13, 4.5],
    [37, 1.5],
    [5, 6],
  ])('at %d° with σ = %d pixels has the width and contrast transfer of the Gaussian', (degrees, sigma) => {
    const edge = measured(
      pictureOf(degrees, (d) => 0.06 + 0.8 * gaussianStep(d / sigma)),
      degrees,
      0.8,
      sigma > 4 ? 30 : 22,
    );
    expect(edge.widthPixels / (2.5631 * sigma)).toBeCloseTo(1, 1.7);
    expect(edge.mtf50PerPixel! / (0.18739 / sigma)).toBeCloseTo(1, 1.7);
    expect(edge.isTooSoft).toBe(false);
  });

  it('with the pixel’s own aperture, too: a square pixel at an angle is two boxes along the normal', () => {
    const [degrees, sigma] = [5, 0.9];
    const angle = (degrees * Math.PI) / 180;
    const [a, b] = [Math.cos(angle), Math.sin(angle)];
    const n = 12;
    const blurred = (d: number): number => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) {
        for (let j = 0; j < n; j += 1) {
          sum += gaussianStep((d + a * ((i + 0.5) / n - 0.5) + b * ((j + 0.5) / n - 0.5)) / sigma);
        }
      }
      return sum / (n * n);
    };
    const table = Array.from({ length: 12001 }, (_, i) => (i % 40 === 0 ? blurred(i / 1000 - 6) : 0));
    const step = (d: number): number => {
      const at = Math.min(11959.999, Math.max(0, (d + 6) * 1000));
      const low = 40 * Math.floor(at / 40);
      return table[low]! + ((table[low + 40]! - table[low]!) * (at - low)) / 40;
    };
    const cross = (level: number): number => {
      let [low, high] = [-6, 6];
      for (let k = 0; k < 60; k += 1) {
        const middle = (low + high) / 2;
        if (step(middle) < level) low = middle;
        else high = middle;
      }
      return low;
    };
    const sinc = (x: number): number => Math.sin(Math.PI * x) / (Math.PI * x);
    let f = 0.01;
    while (Math.exp(-2 * (Math.PI * sigma * f) ** 2) * sinc(f * a) * sinc(f * b) > 0.5) f += 1e-5;
    const edge = measured(
      pictureOf(degrees, (d) => 0.06 + 0.8 * step(d)),
      degrees,
    );
    expect(edge.widthPixels / (cross(0.9) - cross(0.1))).toBeCloseTo(1, 1.7);
    expect(edge.mtf50PerPixel! / f).toBeCloseTo(1, 1.7);
  });

  it('noise and dust change it no more than its halves say', () => {
    const random = createRandom(42);
    const sigma = 1.6;
    const errors: number[] = [];
    const said: number[] = [];
    for (let k = 0; k < 12; k += 1) {
      const picture = pictureOf(
        5 + k / 10,
        (d) => 0.06 + 0.8 * gaussianStep(d / sigma) + 0.012 * random.normal(),
      );
      for (let i = 0; i < 25; i += 1) {
        const at = 3 * random.integer(side * side);
        picture.data.fill(random.uniform() < 0.5 ? 2000 : 62000, at, at + 3);
      }
      const edge = measured(picture, 5 + k / 10);
      errors.push(edge.widthPixels / (2.5631 * sigma) - 1);
      said.push(Math.abs(edge.halvesPixels[0]! - edge.halvesPixels[1]!) / 2 / edge.widthPixels);
    }
    const rms = (values: readonly number[]): number =>
      Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
    expect(rms(errors)).toBeLessThan(0.025);
    expect(rms(errors) / rms(said)).toBeLessThan(2.5);
  });
});

describe('what is no slanted edge', () => {
  it('along the rows, without a step, or outside the picture', () => {
    const upright = pictureOf(0, (d) => 0.06 + 0.8 * gaussianStep(d));
    const line = [
      { x: 60, y: 20 },
      { x: 60, y: 100 },
      { x: 45, y: 60 },
    ] as const;
    expect(measureEdge(upright, ...line, 20)).toBe('along-pixels');
    expect(
      measureEdge(
        pictureOf(5, () => 0.5),
        ...line,
        20,
      ),
    ).toBe('no-edge');
    expect(measureEdge(upright, { x: 60, y: -5 }, line[1], line[2], 20)).toBe('outside');
  });

  it('an edge softer than the white beside it is said to be so', () => {
    const soft = pictureOf(5, (d) => 0.06 + 0.8 * gaussianStep(d / 9));
    expect(measured(soft, 5).isTooSoft).toBe(true);
  });
});
