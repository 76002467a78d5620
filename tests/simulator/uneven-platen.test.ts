import { differenceCiede2000 } from 'culori';
import { afterAll, describe, expect, it } from 'vitest';
import { labFromXyz } from '#craft/colour';
import { type EvennessMap, evennessMap, type Found, platenTruth, sinceWords } from '#craft/evenness';
import { newSheetId } from '#craft/sheet';
import { type EvennessSheetOrder, planEvennessSheet } from '#craft/testsheet';
import { closeVision, readEvennessPicture } from '#shop/vision';
import { chanceOf } from './chance.js';
import { unevenly, vignetted } from './chart.js';
import { ink, press, scan, toFile } from './index.js';
import {
  barAt,
  celsiusAt,
  evennessOrder,
  greyAt,
  pressedEvennessSheet,
  type SheetNoise,
  type UnevenPlaten,
  usualPlaten,
  usualSheetNoise,
} from './uneven-platen.js';
import { writeMarks } from './write-marks.js';

afterAll(closeVision);

const seconds = 240_000;
const face = { widthMm: 360, depthMm: 245 };
const ciede2000 = differenceCiede2000();

function look(how: Partial<UnevenPlaten>, seed: number, noise: SheetNoise = usualSheetNoise): EvennessMap {
  const { cells, columns, rows, pitchMm } = pressedEvennessSheet({ ...usualPlaten, ...how }, seed, noise);
  return evennessMap(cells, columns, rows, pitchMm);
}
const only = (map: EvennessMap, kind: Found['kind']): Found =>
  map.found.find((found) => found.kind === kind)!;

/** The press's own colour at a place, without any noise; culori's CIEDE2000 between two of them. */
function colourAt(how: Partial<UnevenPlaten>, u: number, v: number) {
  const all = { ...usualPlaten, ...how };
  const [l, a, b] = greyAt(all.dwellSeconds, celsiusAt(all, u, v, face), barAt(all, u, v, face)).lab;
  return { mode: 'lab' as const, l, a, b };
}

describe('sheets from an uneven press of another kind', () => {
  it(
    'of 100 even sheets at most 3 show a tilt, 3 a rim and 3 a spot',
    () => {
      const seen = { tilt: 0, rim: 0, spot: 0, even: 0 };
      for (let seed = 1; seed <= 100; seed += 1)
        for (const kind of new Set(look({}, seed).found.map((found) => found.kind))) seen[kind] += 1;
      console.log('even sheets:', JSON.stringify(seen));
      expect(seen.tilt).toBeLessThanOrEqual(3);
      expect(seen.rim).toBeLessThanOrEqual(3);
      expect(seen.spot).toBeLessThanOrEqual(3);
    },
    seconds,
  );

  it(
    'mottle twice as strong, alike over a cell and more, is not taken for faults of the platen either',
    () => {
      const rough = { ...usualSheetNoise, mottleSd: 0.3, mottleMm: 18 };
      const uneven = Array.from({ length: 20 }, (_, i) => look({}, i + 1, rough)).filter(
        ({ found }) => found[0]!.kind !== 'even',
      );
      expect(uneven.length).toBeLessThanOrEqual(1);
    },
    seconds,
  );

  it.each<[string, Partial<UnevenPlaten>, { across: number; along: number }]>([
    ['cooler at the left', { hotterRightK: 8 }, { across: 0, along: 0.5 }],
    ['cooler at the back left', { hotterRightK: 7, hotterFrontK: 6 }, { across: 0, along: 0 }],
    ['pressing less at the left', { harderRight: 0.8 }, { across: 0, along: 0.5 }],
  ])(
    'a platen %s shows a tilt that way, as large as it is',
    (_, how, at) => {
      const [u, v] = [2 * at.across - 1, 2 * at.along - 1];
      const truth = ciede2000(colourAt(how, u, v), colourAt(how, -u, -v));
      const maps = Array.from({ length: 12 }, (_, i) => look(how, i + 1));
      const right = maps.filter(
        ({ found: [first] }) =>
          first!.kind === 'tilt' && first!.at!.across === at.across && first!.at!.along === at.along,
      );
      expect(right.length).toBe(maps.length);
      for (const map of maps) {
        // Colour is no straight line over the platen, the fitted plane is.
        expect(Math.abs(only(map, 'tilt').strength.value / truth - 1)).toBeLessThan(0.15);
      }
      const more = maps.filter(({ found }) => found.length > 1).length;
      expect(more).toBeLessThanOrEqual(1);
    },
    seconds,
  );

  it.each<[string, Partial<UnevenPlaten>]>([
    ['loses heat at its edges', { edgeLossK: 10 }],
    ['has a pad worn along its edges', { wornEdges: 0.7 }],
  ])(
    'a platen that %s shows a rim, as large as it is',
    (_, how) => {
      const { columns, rows, cells } = pressedEvennessSheet({ ...usualPlaten, ...how }, 1);
      const rim = cells
        .filter(({ column, row }) => column === 0 || row === 0 || column === columns - 1 || row === rows - 1)
        .map(({ column, row }) =>
          ciede2000(
            colourAt(how, (2 * (column + 0.5)) / columns - 1, (2 * (row + 0.5)) / rows - 1),
            colourAt(how, 0, 0),
          ),
        );
      const truth = rim.reduce((sum, v) => sum + v, 0) / rim.length;
      for (let seed = 1; seed <= 12; seed += 1) {
        const { found } = look(how, seed);
        expect(found[0]!.kind).toBe('rim');
        expect(found).toHaveLength(1);
        expect(Math.abs(found[0]!.strength.value / truth - 1)).toBeLessThan(0.2);
      }
    },
    seconds,
  );

  it.each<[string, Partial<UnevenPlaten>, number, number]>([
    ['a cold spot', { coldSpot: { u: -0.4, v: 0.3, radiusMm: 40, lossK: 10 } }, -0.4, 0.3],
    ['debris under the pad', { debris: { u: 0.5, v: -0.5, radiusMm: 16 } }, 0.5, -0.5],
  ])(
    '%s is found in its place',
    (name, how, u, v) => {
      const truth = ciede2000(colourAt(how, u, v), colourAt({}, u, v));
      const misses: number[] = [];
      for (let seed = 1; seed <= 12; seed += 1) {
        const { found } = look(how, seed);
        const spot = found.find(({ kind }) => kind === 'spot')!;
        misses.push(
          Math.hypot(
            (spot.at!.across - (u + 1) / 2) * face.widthMm,
            (spot.at!.along - (v + 1) / 2) * face.depthMm,
          ),
        );
        expect(found.filter(({ kind }) => kind !== 'spot')).toEqual([]);
        // Debris is smaller than a cell, so cells see only a part of it.
        if (name === 'a cold spot') expect(Math.abs(spot.strength.value / truth - 1)).toBeLessThan(0.2);
        else expect(spot.strength.value).toBeGreaterThan(2);
      }
      // Half a cell.
      expect(Math.max(...misses)).toBeLessThan(7);
    },
    seconds,
  );

  it(
    'all three together are told apart',
    () => {
      const how = {
        hotterRightK: 8,
        edgeLossK: 8,
        coldSpot: { u: -0.4, v: 0.3, radiusMm: 40, lossK: 12 },
      };
      const kinds = Array.from({ length: 8 }, (_, i) =>
        look(how, i + 1)
          .found.map(({ kind }) => kind)
          .toSorted()
          .join(' '),
      );
      expect(kinds.filter((kind) => kind === 'rim spot tilt').length).toBeGreaterThanOrEqual(7);
    },
    seconds,
  );

  it(
    'pressed again nothing has changed; mended it has gone',
    () => {
      const how = { hotterRightK: 8 };
      const [first, again, mended] = [look(how, 1), look(how, 2), look({}, 3)];
      expect(sinceWords(first, again)).toBe('The tilt towards the left is as before, within chance.');
      expect(sinceWords(first, mended)).toBe('The tilt towards the left is gone.');
      expect(sinceWords(first, look({ hotterRightK: -8 }, 4))).toMatch(/turned by 180°/);
    },
    seconds,
  );
});

it(
  'a probe over the platen finds its temperature, its cool side and its cold spot',
  () => {
    const platen = { widthMm: 400, depthMm: 300 };
    const how = { ...usualPlaten, hotterRightK: 9, coldSpot: { u: 0.5, v: 0.25, radiusMm: 55, lossK: 12 } };
    const columns = 7;
    const rows = 6;
    const truth = (across: number, along: number): number =>
      celsiusAt(how, 2 * across - 1, 2 * along - 1, platen);
    let [spots, sides] = [0, 0];
    const errors: number[] = [];
    for (let seed = 1; seed <= 20; seed += 1) {
      const chance = chanceOf(seed);
      const celsius = Array.from({ length: columns * rows }, (_, i) => {
        const at = truth(((i % columns) + 0.5) / columns, (Math.floor(i / columns) + 0.5) / rows);
        return Math.round(2 * (at + 0.8 * chance.normal())) / 2;
      });
      const { found, map } = platenTruth({ setC: 200, method: 'probe', columns, rows, celsius }, platen);
      if (found.some(({ kind, at }) => kind === 'tilt' && at!.across === 0 && at!.along === 0.5)) sides += 1;
      const spot = found.find(({ kind }) => kind === 'spot');
      if (spot && Math.hypot(spot.at!.across - 0.75, spot.at!.along - 0.625) < 0.15) spots += 1;
      const squares = map.celsius.map(
        (v, i) =>
          (v -
            truth(((i % map.columns) + 0.5) / map.columns, (Math.floor(i / map.columns) + 0.5) / map.rows)) **
          2,
      );
      errors.push(Math.sqrt(squares.reduce((sum, v) => sum + v, 0) / squares.length));
    }
    expect(sides).toBeGreaterThanOrEqual(19);
    expect(spots).toBeGreaterThanOrEqual(19);
    // Between readings 50 mm apart a flank as steep as this one's cannot be followed better.
    expect(Math.max(...errors)).toBeLessThan(1.5);
  },
  seconds,
);

it(
  'a scan of a sheet from such a press, under a lamp brighter in its middle, shows side and spot',
  async () => {
    const ppi = 150;
    const order: EvennessSheetOrder = {
      ...evennessOrder,
      sheetId: newSheetId(Uint8Array.of(7, 7, 7, 1, 2, 3)),
      widthMm: 180,
      heightMm: 130,
    };
    const { plan } = planEvennessSheet(order);
    const piece = press(
      ink(await writeMarks(plan as never, plan.widthMm, plan.heightMm, ppi, { mirror: true })),
    );
    const uneven = unevenly(
      piece,
      (u, v) => 1 - 0.06 * u - 0.2 * Math.exp(-((u + 0.4) ** 2 + (v - 0.3) ** 2) / 0.04),
    );
    const seen = vignetted(scan(uneven, { ppi, turnDegrees: 1, dust: 10, seed: 3 }), 0.12);
    const { cells, columns, rows, pitchMm, groundRgb } = await readEvennessPicture(
      await toFile(seen, { format: 'png', ppi }),
      order,
    );
    // The simulated reader's light as equal bands: enough for differences of a grey.
    const labOf = ([r, g, b]: readonly number[]) => labFromXyz([r!, g!, b!], [1, 1, 1]);
    const map = evennessMap(
      cells.map(({ column, row, rgb, sdOfMean, isSound }) => ({
        column,
        row,
        lab: labOf(rgb),
        sdLab: [0, 1, 2].map((k) => Math.max(0.05, 40 * sdOfMean[k]!)) as [number, number, number],
        density: -Math.log10(rgb[1] / groundRgb[1]),
        isSound,
      })),
      columns,
      rows,
      pitchMm,
    );
    const spot = only(map, 'spot');
    expect(map.found.map(({ kind }) => kind).toSorted()).toEqual(['spot', 'tilt']);
    expect(only(map, 'tilt').at).toEqual({ across: 1, along: 0.5 });
    expect(Math.abs(spot.at!.across - 0.3)).toBeLessThan(0.04);
    expect(Math.abs(spot.at!.along - 0.65)).toBeLessThan(0.04);
    expect(spot.words).toMatch(/paler than round it/);
  },
  seconds,
);
