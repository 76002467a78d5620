import { describe, expect, it } from 'vitest';
import {
  fitCylinderAngle,
  fitFlat,
  fitLighting,
  gainAt,
  localShifts,
  placeInPhoto,
  resizedMap,
} from './index.js';

/** A pinhole camera (f = 1000 px) before a point in millimetres; the textbook projection, not the fitted form. */
const pinhole = ([x, y, z]: readonly [number, number, number]) => {
  const [c, s] = [Math.cos(0.2), Math.sin(0.2)];
  const [u, w] = [c * x + s * z, c * z - s * x + 400];
  return { x: 800 + (1000 * u) / w, y: 600 + (1000 * (y + 5)) / w };
};
const grid = [0, 1, 2, 3, 4].flatMap((i) => [0, 1, 2, 3].map((j) => ({ x: 100 * i + 50, y: 100 * j + 40 })));

describe('maps of a surface', () => {
  it('a plane before a pinhole is found exactly', () => {
    const seen = ({ x, y }: { x: number; y: number }) => pinhole([x * 0.3 - 75, y * 0.3 - 60, 0]);
    const map = fitFlat(grid.map((from) => ({ from, to: seen(from) })))!;
    for (const place of [
      { x: 0, y: 0 },
      { x: 500, y: 400 },
      { x: 33, y: 371 },
    ]) {
      const at = placeInPhoto(map, place.x, place.y);
      const half = placeInPhoto(resizedMap(map, 0.5, 2), place.x / 2, place.y / 2);
      expect(Math.hypot(at.x - seen(place).x, at.y - seen(place).y)).toBeLessThan(1e-5);
      expect(Math.hypot(half.x - 2 * at.x, half.y - 2 * at.y)).toBeLessThan(1e-6);
    }
  });

  it('a cylinder before a pinhole is found, its angle with it', () => {
    const radians = 2.2;
    const seen = ({ x, y }: { x: number; y: number }) => {
      const angle = radians * (x / 500 - 0.5);
      return pinhole([41 * Math.sin(angle), y * 0.18 - 36, 41 * (1 - Math.cos(angle))]);
    };
    const map = fitCylinderAngle(
      grid.map((from) => ({ from, to: seen(from) })),
      500,
      [1.5, 3],
    )!;
    expect(map.kind === 'cylinder' && map.radiansAcross).toBeCloseTo(radians, 2);
    for (const place of [
      { x: 20, y: 0 },
      { x: 480, y: 380 },
      { x: 250, y: 200 },
    ]) {
      const at = placeInPhoto(map, place.x, place.y);
      expect(Math.hypot(at.x - seen(place).x, at.y - seen(place).y)).toBeLessThan(0.05);
    }
  });
});

describe('local shifts', () => {
  // Sums of sines have an exact value between pixels, so the true shift is known without resampling.
  const waves = (x: number, y: number): number =>
    128 +
    40 * Math.sin(0.31 * x + 0.11 * y) +
    35 * Math.sin(0.07 * x - 0.27 * y) +
    20 * Math.cos(0.19 * x * 0.7);
  const field = (dx: number, dy: number, gain = 1, bias = 0) => ({
    width: 160,
    height: 120,
    data: Float32Array.from(
      { length: 160 * 120 },
      (_, i) => bias + gain * waves((i % 160) - dx, Math.floor(i / 160) - dy),
    ),
  });
  const whole = new Uint8Array(160 * 120).fill(1);
  const options = { blockPixels: 36, mostShift: 5, leastTexture: 4 };

  it.each([
    [0.4, -0.3],
    [2.3, 1.7],
  ])('a shift of (%f, %f) pixels is measured, faded or not', (dx, dy) => {
    for (const [gain, bias] of [
      [1, 0],
      [0.4, 120],
    ]) {
      const shifts = localShifts(field(0, 0), field(dx, dy, gain, bias), whole, options);
      expect(shifts.length).toBeGreaterThan(5);
      for (const shift of shifts) {
        expect(Math.hypot(shift.dx - dx, shift.dy - dy)).toBeLessThan(0.05);
        expect(shift.alike).toBeGreaterThan(0.99);
      }
    }
  });

  it('says nothing where there is no pattern', () => {
    const even = { width: 160, height: 120, data: new Float32Array(160 * 120).fill(90) };
    expect(localShifts(even, even, whole, options)).toEqual([]);
  });
});

describe('light on the piece', () => {
  const [width, height] = [320, 240];
  const slope = (s: number): number => 0.7 * Math.exp(0.15 * s);
  /** Stripes of dye of many depths; light grows to the right, and dye fades to the right by `fade`. */
  const made = (fade: number, lightest: number) => {
    const artwork = new Float32Array(3 * width * height);
    const photo = new Float32Array(artwork.length);
    for (let i = 0; i < width * height; i += 1) {
      const [x, y] = [i % width, Math.floor(i / width)];
      const s = (2 * (x + 0.5)) / width - 1;
      const density = lightest + 0.5 * ((Math.floor(x / 20) + Math.floor(y / 20)) % 5);
      for (let c = 0; c < 3; c += 1) {
        artwork[3 * i + c] = Math.exp(-density);
        photo[3 * i + c] = slope(s) * Math.exp(-density * (1 - (fade * (s + 1)) / 2));
      }
    }
    const valid = new Uint8Array(width * height).fill(1);
    return { widthPixels: width, heightPixels: height, artwork, photo, valid };
  };

  it('a fade to one side stays, the lamp’s slope goes', () => {
    const pair = made(0.3, 0);
    const lighting = fitLighting(pair);
    expect(lighting).toMatchObject({ basis: 'white', isShaped: true });
    for (const share of [0.05, 0.5, 0.95]) {
      expect(gainAt(lighting, pair, share * width, height / 2)[1]).toBeCloseTo(slope(2 * share - 1), 2);
    }
  });

  it('says what cannot be told apart when no white is in view', () => {
    expect(fitLighting(made(0, 0.4)).confounded[0]).toMatch(/No bare white/);
    const nothing = { ...made(0, 0), valid: new Uint8Array(width * height) };
    expect(fitLighting(nothing).basis).toBe('none');
  });
});
