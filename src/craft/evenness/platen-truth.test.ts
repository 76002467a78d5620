import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { isProblem } from '#craft/problem';
import { platenTruth } from './platen-truth.js';
import type { PlatenReadings } from './types.js';

const face = { widthMm: 400, depthMm: 300 };
const readings = (more: Partial<PlatenReadings>): PlatenReadings => ({
  setC: 200,
  method: 'probe',
  columns: 1,
  rows: 1,
  celsius: [196],
  ...more,
});

describe('what a platen truly is', () => {
  it('says what to set', () => {
    const truth = platenTruth(readings({ columns: 3, rows: 3, celsius: Array(9).fill(196) }), face);
    expect(truth.offsetK.value).toBeCloseTo(-4, 6);
    expect(truth.spreadK).toBeCloseTo(0, 6);
    expect(truth.sentences[0]).toBe('The platen is 4 °C cooler than it says: set 204 for 200.');
    expect(truth.map.celsius).toHaveLength(truth.map.columns * truth.map.rows);
    expect(truth.map.columns / truth.map.rows).toBeCloseTo(face.widthMm / face.depthMm, 1);
  });

  it('one reading is an offset of its own place and less sure of the whole', () => {
    const one = platenTruth(readings({}), face);
    const nine = platenTruth(readings({ columns: 3, rows: 3, celsius: Array(9).fill(196) }), face);
    expect(one.offsetK.value).toBe(-4);
    expect(one.offsetK.high - one.offsetK.low).toBeGreaterThan(1.3 * (nine.offsetK.high - nine.offsetK.low));
    expect(one.found.map(({ kind }) => kind)).toEqual(['even']);
    expect(one.sentences.join(' ')).toMatch(/One place says nothing/);
  });

  it('a small difference within the instrument’s own doubt is said to be so', () => {
    const { sentences } = platenTruth(readings({ columns: 2, rows: 2, celsius: [198, 198, 198, 198] }), face);
    expect(sentences[0]).toMatch(/2 °C cooler .* But this instrument cannot tell better than ±\d °C/);
  });

  it('the instrument’s ± as its maker states it widens the offset, not the map', () => {
    const celsius = [200, 199, 196, 195, 201, 199, 197, 194, 200, 198, 195, 195];
    const fine = platenTruth(readings({ columns: 4, rows: 3, celsius, instrumentK: 0.5 }), face);
    const coarse = platenTruth(readings({ columns: 4, rows: 3, celsius, instrumentK: 8 }), face);
    expect(coarse.map).toEqual(fine.map);
    // A rectangle of ±8 has the standard deviation 8/√3 (JCGM 100:2008, 4.3.7); nine in ten of a normal one: ×1.645.
    expect((coarse.offsetK.high - coarse.offsetK.low) / 2).toBeCloseTo((1.645 * 8) / Math.sqrt(3), 0);
    // The line through the columns' means falls by 1.97 a column, the face is four columns wide, and the middles of the
    // map's first and last of 16 fields are 15/16 of it apart: 7.4.
    expect(fine.found[0]!.words).toBe('The right is 7 °C cooler than the left.');
  });

  it('a row that is cooler by far more than a probe’s repeat is found, though no plane fits it', () => {
    const celsius = [196, 198, 197, 195, 199, 196, 189, 193, 190];
    const { found } = platenTruth(readings({ columns: 3, rows: 3, celsius }), face);
    expect(found.map(({ kind }) => kind)).toEqual(['tilt']);
    expect(found[0]!.words).toMatch(/^The front is \d+ °C cooler than the back\.$/);
    // The rows' means: 197, 196.7, 190.7.
    expect(found[0]!.strength.low).toBeLessThan(6.3);
    expect(found[0]!.strength.high).toBeGreaterThan(6.3);
  });

  it('what was found never says more than the sentence of the whole platen beside it', () => {
    const random = createRandom(5);
    for (let platen = 0; platen < 60; platen += 1) {
      const celsius = Array.from(
        { length: 9 },
        (_, i) => 196 + 3 * (i % 3) - 2 * Math.floor(i / 3) + 1.5 * random.normal(),
      );
      const { found, spreadK, sentences } = platenTruth(readings({ columns: 3, rows: 3, celsius }), face);
      for (const one of found)
        if (one.kind === 'tilt') expect(one.strength.value).toBeLessThanOrEqual(spreadK + 1e-9);
      const said = /differs by (\d+) °C: (\d+) °C .*, (\d+) °C/.exec(sentences[1]!);
      if (spreadK >= 3) expect(Number(said![2]) - Number(said![3])).toBe(Number(said![1]));
    }
  });

  it('a hot middle has no side, and is not called even', () => {
    const celsius = [194, 197, 194, 197, 201, 197, 194, 197, 194];
    const { found, spreadK } = platenTruth(readings({ columns: 3, rows: 3, celsius }), face);
    expect(spreadK).toBeGreaterThan(5);
    expect(found.map(({ words }) => words).join(' ')).not.toMatch(/evenly/);
  });

  it('of a mug press’s wrap it says top and bottom', () => {
    const celsius = [205, 203, 204, 200, 201, 199, 196, 197, 195];
    const sides = { back: 'top', front: 'bottom' };
    const { found, sentences } = platenTruth(readings({ columns: 3, rows: 3, celsius }), { ...face, sides });
    expect(found[0]!.words).toMatch(/^The bottom is \d+ °C cooler than the top\.$/);
    expect(sentences.join(' ')).not.toMatch(/\b(back|front)\b/);
  });

  it('readings taken apart from the rest leave the map where they are missing', () => {
    const celsius = [200, null, 200, 200, 200, null, 200, 200, 200, 200, 200, 200];
    const { map, offsetK } = platenTruth(readings({ columns: 4, rows: 3, celsius }), face);
    expect(offsetK.value).toBeCloseTo(0, 6);
    expect(Math.max(...map.celsius) - Math.min(...map.celsius)).toBeLessThan(1e-6);
  });

  it.each(['probe', 'strips', 'infra-red'] as const)(
    'over many shops the band of the offset holds the truth nine times in ten: %s',
    (method) => {
      const random = createRandom(12);
      const shops = 300;
      let held = 0;
      for (let shop = 0; shop < shops; shop += 1) {
        const offset = 6 * random.normal();
        const tilt = 3 * random.normal();
        // Makers' limits: anywhere within ±; strips ±2, probe ±3, infra-red ±4 and an emissivity of 0.88 to 0.96.
        const half = method === 'strips' ? 2 : method === 'probe' ? 3 : 4;
        const shared = half * (2 * random.uniform() - 1);
        // At 200 °C a hundredth of emissivity is worth about 1.4 K between 8 and 14 µm.
        const coat = method === 'infra-red' ? 5.4 * (2 * random.uniform() - 1) - 4 : 0;
        const celsius = Array.from({ length: 12 }, (_, i) => {
          const truth = 200 + offset + tilt * ((i % 4) / 1.5 - 1);
          const seen = truth + shared + coat + 0.8 * random.normal();
          return method === 'strips' ? 166 + 5.6 * Math.floor((seen - 166) / 5.6) : seen;
        });
        const { offsetK } = platenTruth(readings({ method, columns: 4, rows: 3, celsius }), face);
        if (offsetK.low <= offset && offsetK.high >= offset) held += 1;
      }
      expect(held / shops).toBeGreaterThan(0.9 - 4 * Math.sqrt(0.09 / shops));
    },
  );

  it('strips are read between the mark that changed and the next', () => {
    const { offsetK, sentences } = platenTruth(
      readings({ method: 'strips', columns: 2, rows: 2, celsius: [193.3, 193.3, 198.9, 193.3] }),
      face,
    );
    expect(offsetK.value).toBeGreaterThan(-6);
    expect(offsetK.value).toBeLessThan(-1);
    expect(sentences.join(' ')).toMatch(/taken as 5\.6 °C higher, so half of that was added/);
  });

  it('from afar it corrects for how the face shines, and says how little is known', () => {
    const { offsetK, sentences } = platenTruth(
      readings({
        method: 'infra-red',
        emissivitySet: 0.95,
        columns: 2,
        rows: 2,
        celsius: Array(4).fill(196),
      }),
      face,
    );
    // Shown too low, since the face shines a little less than the instrument was told.
    expect(offsetK.value).toBeGreaterThan(-2);
    expect(offsetK.value).toBeLessThan(2);
    expect(offsetK.high - offsetK.low).toBeGreaterThan(8);
    expect(sentences.join(' ')).toMatch(/A bare, shiny platen cannot be measured from afar/);
  });

  it.each([
    ['set to 0.2 for bare aluminium', { method: 'infra-red', emissivitySet: 0.2, celsius: [199] } as const],
    ['that sees mostly the room in bare metal', { method: 'infra-red', celsius: [75] } as const],
  ])('an infra-red thermometer %s is refused, with what to do', (_, more) => {
    let refused: unknown;
    try {
      platenTruth(readings(more), face);
    } catch (error) {
      refused = error;
    }
    expect(isProblem(refused) && refused.code).toBe('press.invalid');
    expect(isProblem(refused) && refused.message).toMatch(/bare metal mirrors the room/);
    expect(isProblem(refused) && refused.remedy).toMatch(/matt tape/);
  });

  it('no readings, too few, or ones no hot platen has are refused', () => {
    expect(() => platenTruth(readings({ celsius: [null] }), face)).toThrow('No temperature was given.');
    expect(() => platenTruth(readings({ columns: 2, celsius: [196] }), face)).toThrow(/need as many/);
    expect(() => platenTruth(readings({ celsius: [24] }), face)).toThrow(/176 °C below what was set/);
    expect(() => platenTruth(readings({ celsius: [196] }), { widthMm: 0, depthMm: 300 })).toThrow(/size/);
  });

  it('hotter than anything is pressed at is warned of', () => {
    const { sentences } = platenTruth(readings({ setC: 225, celsius: [236] }), face);
    expect(sentences.join(' ')).toMatch(/above 230 °C/);
  });
});
