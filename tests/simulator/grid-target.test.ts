import { describe, expect, it } from 'vitest';
import { readMeasurements, writeCgats } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import { isProblem } from '#craft/problem';
import { cardReaderMap, fitReaderMap, gridTargetOf, readGridTarget, tagReaderMap } from '#craft/reader';
import { type CardColours, fileOfCard, photoOfCard } from './photo-of-card.js';
import { dyeOnCoating, otherColourants } from './virtual-printer.js';
import { virtualReader } from './virtual-reader.js';
import { errorsOf, judgedColours, pairing, summary } from './virtual-reader-comparison.js';

const reader = virtualReader(4, 'white LED');

function cardOf(columns: number, rows: number, greys: number, seed: number): CardColours {
  const random = createRandom(seed);
  const device: Triple[] = Array.from({ length: columns * rows }, () => [
    random.uniform(),
    random.uniform(),
    random.uniform(),
  ]);
  // A field's last column is often a tone scale.
  for (let row = 0; row < rows; row += 1) {
    const v = 1 - row / (rows - 1);
    device[row * columns + columns - 1] = [v, v, v];
  }
  for (let i = 0; i < greys; i += 1) {
    const v = 1 - i / (greys - 1);
    device.push([v, v, v]);
  }
  const source = otherColourants(seed);
  return {
    columns,
    rows,
    greys,
    light: reader.see(source.reflect(device), seed),
    lab: source.print(device),
  };
}
const codeOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    return isProblem(error) ? error.code : String(error);
  }
  return 'taken';
};

describe('where the patches of a target stand', () => {
  const card = cardOf(22, 12, 24, 3);

  it('is told by their names, whatever their order, also through a CGATS file', () => {
    const file = fileOfCard(card);
    const target = gridTargetOf(
      readMeasurements(writeCgats({ ...file, xyz: null }, { originator: 'Virtual instrument (invented)' })),
    );
    expect([target.columns, target.rows, target.greyScale?.length]).toEqual([22, 12, 24]);
    target.lab.forEach((lab, i) => {
      lab?.forEach((v, j) => {
        expect(v).toBeCloseTo(card.lab[i]![j]!, 3);
      });
    });
  });

  it('is refused where names do not say it', () => {
    const file = fileOfCard(card);
    const named = (sampleIds: string[]) => codeOf(() => gridTargetOf({ ...file, sampleIds }));
    expect(named(file.sampleIds.map((_, i) => String(i + 1)))).toBe('measurements.broken');
    expect(named(file.sampleIds.map(() => 'A1'))).toBe('measurements.broken');
    expect(named(file.sampleIds.map((id) => id.replace(/^[B-K]/, 'A')))).toBe('measurements.broken');
    expect(codeOf(() => gridTargetOf({ ...file, lab: null }))).toBe('measurements.broken');
  });
});

describe('a target in a photo with a cast and vignetting', () => {
  const card = cardOf(22, 12, 24, 3);
  const target = gridTargetOf(fileOfCard(card));
  const cast: Triple = [1, 0.86, 0.68];

  for (const mirrored of [false, true]) {
    for (const turn of [0, 1, 2, 3] as const) {
      it(`is read turned by ${90 * turn}°${mirrored ? ' and mirrored' : ''}, its corners dragged from any of them`, () => {
        const photo = photoOfCard(card, { turn, mirrored, cast, vignetting: 0.2, seed: 20 + turn });
        const dragged = [...photo.corners.slice(turn), ...photo.corners.slice(0, turn)];
        if (turn % 2) dragged.reverse();
        const { samples, remarks } = readGridTarget(photo.picture, dragged, target);
        expect(samples.length).toBeGreaterThan(280);
        expect(remarks.some((remark) => remark.includes('mirrored'))).toBe(mirrored);
        // Names say which patch it is: its light must be that patch's own, but for the cast and the corners' darkness.
        const off = samples.map(({ name, rgb }) => {
          const row = name!.charCodeAt(0) - 65;
          const i = name!.startsWith('GS')
            ? 264 + Number(name!.slice(2))
            : 22 * row + Number(name!.slice(1)) - 1;
          return Math.max(
            ...rgb.map((v, c) => Math.abs(v - card.light[i]![c]! * cast[c]! * 0.92) - 0.09 * v),
          );
        });
        expect(Math.max(...off)).toBeLessThan(0.02);
      });
    }
  }

  it('is refused with the file of another, with wrong corners, and when far away', () => {
    const photo = photoOfCard(card, { seed: 3 });
    const read = (corners = photo.corners, of = target) =>
      codeOf(() => readGridTarget(photo.picture, corners, of));
    const [a, b, c, d] = photo.corners as [{ x: number; y: number }, never, never, never];
    expect(read()).toBe('taken');
    expect(read(photo.corners, gridTargetOf(fileOfCard(cardOf(22, 12, 24, 8))))).toBe('scan.unclear');
    expect(read([a, c, b, d])).toBe('scan.unclear');
    expect(read([a, a, a, a])).toBe('scan.unclear');
    expect(read([a, b, c])).toBe('scan.unclear');
    expect(read([{ x: -50, y: 0 }, b, c, d])).toBe('scan.unclear');
    expect(read([{ x: Number.NaN, y: 0 }, b, c, d])).toBe('scan.unclear');
    const near = photo.corners.map(({ x, y }) => ({ x: a.x + (x - a.x) / 9, y: a.y + (y - a.y) / 9 }));
    expect(read(near)).toBe('scan.unclear');
  });
});

describe('what a card in the photo is good for', () => {
  const printer = dyeOnCoating(2);
  const judged = pairing(printer, reader, judgedColours(150, 4), 9);
  const cast: Triple = [0.98, 0.82, 0.6];
  const underCast = {
    ...judged,
    samples: judged.samples.map((sample) => ({
      ...sample,
      rgb: sample.rgb.map((v, c) => v * cast[c]!) as [number, number, number],
    })),
  };
  const ground = reader.see(printer.reflect([[1, 1, 1]]), 3)[0]!.map((v, c) => v * cast[c]!) as [
    number,
    number,
    number,
  ];

  it('takes a card of 24 patches: better than half of the error without it (as published: a card halves it)', () => {
    const card = cardOf(6, 4, 0, 5);
    const photo = photoOfCard(card, { turn: 1, cast, vignetting: 0.15, seed: 5 });
    const { samples } = readGridTarget(photo.picture, photo.corners, gridTargetOf(fileOfCard(card)));
    const map = cardReaderMap(samples, ground);
    const real = summary(errorsOf(map, underCast));
    const without = summary(errorsOf(tagReaderMap({ kind: 'phone', groundRgb: ground }), underCast));
    expect(real.meanDeltaE00).toBeLessThan(0.6 * without.meanDeltaE00);
    expect(real.meanDeltaE00).toBeLessThan(map.expectedError.meanDeltaE00);
  });

  it('calibrates a scanner from a picture of a target, and its expected error holds', () => {
    const card = cardOf(22, 12, 24, 7);
    const photo = photoOfCard(card, { perspective: 0, vignetting: 0, seed: 7 });
    const { samples } = readGridTarget(photo.picture, photo.corners, gridTargetOf(fileOfCard(card)));
    const map = fitReaderMap(samples, { by: 'target' });
    const real = summary(errorsOf(map, judged));
    expect(real.meanDeltaE00).toBeLessThan(1.3 * map.expectedError.meanDeltaE00);
    expect(real.p95DeltaE00).toBeLessThan(1.3 * map.expectedError.p95DeltaE00);
  });
});
