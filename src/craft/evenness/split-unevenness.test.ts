import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { splitUnevenness } from './split-unevenness.js';
import type { Field, Place, PlaceValue } from './types.js';

const platen: Field = { unit: 'K', widthMm: 400, depthMm: 300 };
const grid = (
  columns: number,
  rows: number,
  value: (place: Place) => number,
  { sd = 1, noise = sd, seed = 1 }: { sd?: number; noise?: number; seed?: number } = {},
): PlaceValue[] => {
  const random = createRandom(seed);
  return Array.from({ length: columns * rows }, (_, i) => {
    const place = {
      across: ((i % columns) + 0.5) / columns,
      along: (Math.floor(i / columns) + 0.5) / rows,
    };
    return { ...place, value: value(place) + noise * random.normal(), sd };
  });
};
const kinds = (values: readonly PlaceValue[], field = platen): string[] =>
  splitUnevenness(values, field).found.map(({ kind }) => kind);

describe('splitting what is uneven', () => {
  it.each([
    [2, 2],
    [3, 3],
    [5, 4],
    [7, 6],
    [20, 14],
  ])('%d × %d even places show each fault in at most 3 of 100 maps', (columns, rows) => {
    const maps = columns * rows > 100 ? 60 : 300;
    const seen = { tilt: 0, rim: 0, spot: 0 };
    for (let seed = 1; seed <= maps; seed += 1)
      for (const kind of new Set(kinds(grid(columns, rows, () => 0, { seed }))))
        if (kind !== 'even') seen[kind as keyof typeof seen] += 1;
    for (const [kind, count] of Object.entries(seen)) expect(count / maps, kind).toBeLessThanOrEqual(0.03);
  });

  it('a tilt is told with its side, its size and a band that holds the truth nine times in ten', () => {
    let [corner, held] = [0, 0];
    for (let seed = 1; seed <= 200; seed += 1) {
      const values = grid(6, 5, ({ across, along }) => 6 * (1 - across) + 6 * along, { seed });
      const [tilt] = splitUnevenness(values, platen).found;
      expect(tilt!.kind).toBe('tilt');
      if (tilt!.at!.across !== 0 || tilt!.at!.along !== 1) continue;
      corner += 1;
      expect(tilt!.words).toMatch(/^The front left is \d+ °C cooler than the back right\.$/);
      if (tilt!.strength.low <= 12 && tilt!.strength.high >= 12) held += 1;
    }
    expect(corner).toBeGreaterThanOrEqual(198);
    // 200 draws of 90 %: four standard errors to either side.
    const error = Math.sqrt(0.09 / 200);
    expect(held / corner).toBeGreaterThan(0.9 - 4 * error);
    expect(held / corner).toBeLessThan(0.9 + 4 * error);
  });

  it('two places wildly misread bend neither plane nor level', () => {
    const values = grid(8, 6, ({ across }) => 6 * across, { noise: 0.5, sd: 0.5, seed: 4 });
    const wild = values.map((place, i) => (i === 3 || i === 40 ? { ...place, value: -40 } : place));
    const split = splitUnevenness(wild, platen);
    const tilt = split.found.find(({ kind }) => kind === 'tilt')!;
    expect(tilt.words).toMatch(/The right is 6 °C cooler than the left/);
    expect(split.smoothAt(0.5, 0.9)).toBeCloseTo(3, 0);
  });

  it('on a fine map a speck is named and left out, and makes no spot', () => {
    const values = grid(20, 14, () => 0, { sd: 0.3, seed: 2 });
    values[149] = { ...values[149]!, value: 9 };
    const { found, remarks } = splitUnevenness(values, { ...platen, unit: 'ΔE00' });
    expect(found.map(({ kind }) => kind)).toEqual(['even']);
    expect(remarks.join(' ')).toMatch(/^One place stands alone and was left out.* in the middle\.$/);
  });

  it('few places say what they cannot tell', () => {
    expect(
      splitUnevenness(
        grid(1, 1, () => 3),
        platen,
      ).remarks.join(' '),
    ).toMatch(/One place says nothing/);
    expect(
      splitUnevenness(
        grid(4, 1, () => 3),
        platen,
      ).remarks.join(' '),
    ).toMatch(/nothing of what changes from back to front/);
    expect(
      splitUnevenness(
        grid(2, 2, () => 3),
        platen,
      ).remarks.join(' '),
    ).toMatch(/4 places can show a tilt, but neither cool edges nor spots/);
    expect(
      splitUnevenness(
        grid(3, 3, () => 3),
        platen,
      ).remarks.join(' '),
    ).toMatch(/3 × 3 places cannot tell/);
    expect(kinds(grid(2, 2, ({ across }) => 15 * across))).toEqual(['tilt']);
  });

  it('what is too little to matter is not spoken of, however sure', () => {
    expect(
      kinds(
        grid(20, 14, ({ across }) => 0.3 * across, { sd: 0.05 }),
        { ...platen, unit: 'ΔE00' },
      ),
    ).toEqual(['even']);
  });

  it('no places, or places without a value, are refused', () => {
    expect(() => splitUnevenness([], platen)).toThrow('There is no place to go by.');
    expect(() => splitUnevenness([{ across: 0.5, along: 0.5, value: Number.NaN, sd: 1 }], platen)).toThrow(
      'A place of the map has no usable value.',
    );
  });
});
