import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { newSheetId } from '#craft/sheet';
import { type PlannedLadderSheet, planLadderSheet } from '#craft/testsheet';
import { closeVision, type ReadCoupons, readCouponsPicture } from '#shop/vision';
import { fieldOf } from './chart.js';
import { blank, blurred, ink, type Picture, press, scan, toFile } from './index.js';
import { cutOut, type OnGlass, onTheGlass } from './on-the-glass.js';
import { writeMarks } from './write-marks.js';

afterAll(closeVision);

const ppi = 400;
const sheetId = newSheetId(Uint8Array.of(9, 8, 7, 6, 5, 4));
/** σ of the dye's spread into the coat, mm, coupon by coupon. */
const spreads = [0.04, 0.08, 0.14, 0.22, 0.3, 0.38];
let planned: PlannedLadderSheet;
let paper: Picture;

async function printed(
  order: Partial<Parameters<typeof planLadderSheet>[0]> = {},
): Promise<[PlannedLadderSheet, Picture]> {
  const ladder = planLadderSheet({
    sheetId,
    widthMm: 145,
    heightMm: 108,
    marginMm: 3,
    material: 'hard',
    mirrorOnWriting: true,
    coupons: spreads.map((_, i) => ({ number: 2 * i + 1, step: `${20 * (i + 1)} s` })),
    ...order,
  });
  const { widthMm, heightMm, marks } = ladder.plan;
  return [ladder, ink(await writeMarks({ marks } as never, widthMm, heightMm, ppi, { mirror: true }))];
}

beforeAll(async () => {
  [planned, paper] = await printed();
});

/** A coupon cut from the printed paper, which bears everything mirrored. */
function cut(from: Picture, { coupons, plan }: PlannedLadderSheet, index: number): Picture {
  const { rect } = coupons[index]!;
  return cutOut(from, { ...rect, xMm: plan.widthMm - rect.xMm - rect.widthMm });
}
const pressed = (index: number): Picture => press(cut(paper, planned, index), { spreadMm: spreads[index]! });

async function scanned(
  pieces: readonly OnGlass[],
  widthMm: number,
  heightMm: number,
  seed = 5,
): Promise<Buffer> {
  const glass = onTheGlass(pieces, widthMm, heightMm, ppi);
  return toFile(scan(glass, { ppi, dust: 15, seed }), { format: 'png', ppi });
}

/** 10–90 % of an upright edge drawn ten times finer and passed through the same ink, press and optics, counted out. */
function widthUm(spreadMm: number): number {
  const fine = 4000;
  const width = 1200;
  const edge = blank(width, 9, fine);
  for (let i = 0; i < edge.data.length; i += 1) if (Math.floor(i / 3) % width < width / 2) edge.data[i] = 0;
  // Laid on the glass and scanned, the picture is interpolated twice: a sixth of a pixel's square each, on the mean.
  const optics = Math.sqrt(0.6 ** 2 + 2 / 6) * (fine / ppi);
  const seen = blurred(press(ink(edge), { spreadMm }), optics);
  const row = Array.from({ length: width }, (_, x) => seen.data[3 * (4 * width + x)]!);
  const rising = row[0]! < row[width - 1]! ? row : row.toReversed();
  const [dark, light] = [rising[0]!, rising[width - 1]!];
  const at = (share: number): number => rising.findIndex((v) => v > dark + share * (light - dark));
  return ((at(0.9) - at(0.1)) * 25400) / fine;
}

describe('coupons of a ladder, cut apart, pressed and scanned together', () => {
  let read: ReadCoupons;
  beforeAll(async () => {
    const turns = [3, 94, 178, -87, 12, 31];
    const pieces = spreads.map((_, i) => ({
      picture: pressed(i),
      middleXMm: 36 + 66 * (i % 3),
      middleYMm: 36 + 66 * Math.floor(i / 3),
      turnDegrees: turns[i]!,
    }));
    read = await readCouponsPicture(await scanned(pieces, 204, 138));
  });

  it('each is found, whichever way it lies, and says which it is', () => {
    expect(read.coupons).toHaveLength(6);
    expect(read.coupons.map(({ number }) => number).toSorted((a, b) => a! - b!)).toEqual([1, 3, 5, 7, 9, 11]);
    for (const { reading, markersUsed } of read.coupons) {
      expect(markersUsed).toBe(4);
      expect(reading!.surface).toBe('piece');
    }
  });

  it('the code is read until dye spreads as far as its modules are wide, and that it is not is said', () => {
    spreads.forEach((spread, i) => {
      const {
        sheetId: id,
        numberFrom,
        mirrorOnWriting,
      } = read.coupons.find(({ number }) => number === 2 * i + 1)!;
      if (spread < 0.25) expect([id, numberFrom, mirrorOnWriting]).toEqual([sheetId, 'code', true]);
      if (id === null) expect(numberFrom).toBe('cells');
    });
    const lost = read.coupons.filter(({ sheetId: id }) => id === null).length;
    expect(read.remarks).toHaveLength(lost > 0 ? 1 : 0);
    if (lost > 0) expect(read.remarks[0]).toContain(`${lost} of 6 coupons could not be read`);
  });

  it('the cells say the same number as the code', () => {
    for (const { number, reading } of read.coupons) expect(reading!.cellNumber).toBe(number);
  });

  it('patches are those of the simulated press', () => {
    for (const { reading } of read.coupons) {
      for (const { name, rgb, sdOfMean, isSound } of reading!.patches) {
        const { deviceRgb } = planned.coupon.patches.find((patch) => patch.name === name)!;
        const truth = fieldOf(deviceRgb, 'piece');
        expect(isSound, name).toBe(true);
        // Half a step of 8 bits is up to 0.005 of full light.
        rgb.forEach((v, c) => {
          expect(Math.abs(v - truth[c]!), `${name} ${c}`).toBeLessThan(0.01);
        });
        expect(Math.max(...sdOfMean)).toBeLessThan(0.003);
      }
      [0.92, 0.92, 0.9].forEach((v, c) => {
        expect(reading!.ground.rgb[c]).toBeCloseTo(v, 2);
      });
    }
  });

  it('edges are as wide as the press made them', () => {
    const rows = spreads.map((spread, i) => {
      const { edge } = read.coupons.find(({ number }) => number === 2 * i + 1)!.reading!;
      return { spread, seen: edge!.widthUm, sd: edge!.sdUm, truth: widthUm(spread) };
    });
    for (const { spread, seen, sd, truth } of rows) {
      expect(
        Math.abs(seen / truth - 1),
        `σ ${spread} mm: ${seen.toFixed(0)} ± ${sd.toFixed(1)} for ${truth.toFixed(0)} µm`,
      ).toBeLessThan(0.04);
      expect(sd).toBeGreaterThan(0);
    }
    for (let i = 1; i < rows.length; i += 1) expect(rows[i]!.seen).toBeGreaterThan(rows[i - 1]!.seen);
  });

  it('small words pale as the dye spreads', () => {
    const smallest = spreads.map(
      (_, i) => read.coupons.find(({ number }) => number === 2 * i + 1)!.reading!.words[2]!.strength,
    );
    expect(smallest[0]! - smallest[5]!).toBeGreaterThan(0.1);
  });
});

describe('one coupon', () => {
  const alone = (picture: Picture, turnDegrees = 4): OnGlass => ({
    picture,
    middleXMm: 36,
    middleYMm: 36,
    turnDegrees,
  });

  it('on paper reads as paper', async () => {
    const { coupons } = await readCouponsPicture(await scanned([alone(cut(paper, planned, 2))], 72, 72));
    expect(coupons).toHaveLength(1);
    expect(coupons[0]).toMatchObject({ number: 5, numberFrom: 'code' });
    expect(coupons[0]!.reading!.surface).toBe('paper');
  });

  it('whose code is spoilt is known by its cells when its ladder is named', async () => {
    const piece = pressed(3);
    const { qr } = planned.coupon.frame;
    const perMm = ppi / 25.4;
    for (let y = Math.floor(qr.yMm * perMm); y < (qr.yMm + qr.heightMm) * perMm; y += 1) {
      const at = 3 * (y * piece.width + Math.floor(qr.xMm * perMm));
      piece.data.fill(0.5, at, at + 3 * Math.floor(qr.widthMm * perMm));
    }
    const file = await scanned([alone(piece)], 72, 72);
    const { widthMm, heightMm, material } = planned.coupon;
    const { coupons } = await readCouponsPicture(file, {
      expected: { sheetId, widthMm, heightMm, material },
    });
    expect(coupons).toMatchObject([{ sheetId: null, number: 7, numberFrom: 'cells' }]);
    const refused = await readCouponsPicture(file).catch((error: unknown) => error);
    expect(isProblem(refused) && refused.code).toBe('scan.no-marks');
  });

  it('twice in a scan, or of another ladder, or cut off at the glass, is told', async () => {
    const twice = [
      { picture: pressed(0), middleXMm: 34, middleYMm: 34, turnDegrees: 5 },
      { picture: pressed(0), middleXMm: 96, middleYMm: 34, turnDegrees: 80 },
      { picture: pressed(1), middleXMm: 34, middleYMm: 101, turnDegrees: -3 },
      { picture: pressed(2), middleXMm: 96, middleYMm: 117, turnDegrees: 2 },
    ];
    const other = newSheetId(Uint8Array.of(1, 2, 3, 4, 5, 6));
    const { widthMm, heightMm, material } = planned.coupon;
    const { coupons, remarks } = await readCouponsPicture(await scanned(twice, 130, 132), {
      expected: { sheetId: other, widthMm, heightMm, material },
    });
    expect(coupons.filter(({ number }) => number === 1)).toHaveLength(2);
    expect(remarks.join(' ')).toMatch(/another ladder/);
    expect(remarks.join(' ')).toMatch(/Coupon 1 is in the picture more than once/);
    expect(remarks.join(' ')).toMatch(/Not all corner marks were seen of coupon 5;/);
  });

  it('an empty scan has none', async () => {
    const file = await toFile(blank(800, 800, ppi, [0.9, 0.9, 0.9]), { format: 'png', ppi });
    const refused = await readCouponsPicture(file).catch((error: unknown) => error);
    expect(isProblem(refused) && refused.code).toBe('scan.no-marks');
  });
});
