import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { isProblem } from '#craft/problem';
import { newSheetId } from '#craft/sheet';
import {
  couponLayout,
  leastCouponMm,
  numberOfCells,
  numberWord,
  planEvennessSheet,
  planLadderSheet,
  readCouponCode,
  writeCouponCode,
} from './index.js';
import { inside, overlaps, printedBoxes } from './testing/boxes.js';

const sheetId = newSheetId(Uint8Array.of(2, 3, 5, 7, 11, 13));
const a4 = { sheetId, widthMm: 210, heightMm: 297, marginMm: 3, mirrorOnWriting: true };
const coupons = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ number: i + 1, step: `205 °C · ${10 * (i + 1)} s · firm` }));
const codeOf = (work: () => unknown): string | undefined => {
  try {
    work();
  } catch (error) {
    return isProblem(error) ? error.code : 'not a Problem';
  }
  return undefined;
};

describe('the number in cells', () => {
  /** MacWilliams & Sloane, The Theory of Error-Correcting Codes (1977), ch. 13–14: d of RM(1, 4) is 8; bent words weigh 6 or 10. */
  it('two numbers differ in eight cells, and each has six or ten dark ones', () => {
    const words = Array.from({ length: 16 }, (_, n) => numberWord(n + 1));
    words.forEach((one, i) => {
      expect([6, 10]).toContain(one.filter(Boolean).length);
      for (const other of words.slice(i + 1)) {
        expect(one.filter((cell, k) => cell !== other[k]).length).toBe(8);
      }
    });
  });

  it('is read with two cells wrong; a blot, bare ground and chance are none', () => {
    const random = createRandom(5);
    let falsely = 0;
    for (let n = 1; n <= 16; n += 1) {
      const seen = numberWord(n).map((on) => (on ? 0.9 : 0.1) + 0.05 * random.normal());
      expect(numberOfCells(seen)).toBe(n);
      for (let k = 0; k < 2; k += 1) {
        const at = (5 * n + 7 * k) % 16;
        seen[at] = 1 - seen[at]!;
      }
      expect([n, null]).toContain(numberOfCells(seen));
    }
    for (let k = 0; k < 500; k += 1) {
      if (numberOfCells(Array.from({ length: 16 }, () => random.uniform())) !== null) falsely += 1;
    }
    expect(falsely).toBeLessThan(40);
    expect(numberOfCells(Array.from({ length: 16 }, () => 0.3))).toBeNull();
    expect(numberOfCells(Array.from({ length: 16 }, () => Number.NaN))).toBeNull();
  });
});

describe('the code on a coupon', () => {
  it('comes back as it was written', () => {
    for (const number of [1, 9, 16]) {
      const code = {
        sheetId,
        number,
        mirrorOnWriting: number === 9,
        material: 'fabric',
        widthMm: 62,
        heightMm: 70.25,
      } as const;
      const text = writeCouponCode(code);
      // ISO/IEC 18004, table 7: version 2 at level M holds 38 alphanumeric characters.
      expect(text).toMatch(/^[0-9A-Z:]{1,38}$/);
      expect(readCouponCode(text)).toEqual(code);
      expect(readCouponCode(text.replace('W', 'V'))).toBeNull();
    }
    expect(
      codeOf(() =>
        writeCouponCode({
          sheetId,
          number: 17,
          mirrorOnWriting: true,
          material: 'hard',
          widthMm: 45,
          heightMm: 45,
        }),
      ),
    ).toBe('request.invalid');
  });
});

describe('a ladder sheet', () => {
  it.each(['hard', 'fabric'] as const)(
    'for %s: nothing covers anything, all lies on its coupon',
    (material) => {
      const { plan, coupons: placed } = planLadderSheet({ ...a4, material, coupons: coupons(12) });
      expect(overlaps(plan, ({ role }) => role !== 'trim')).toEqual([]);
      const room = { xMm: 3, yMm: 3, widthMm: 204, heightMm: 291 };
      for (const box of printedBoxes(plan))
        expect(inside(box, { ...room, xMm: 2.9, widthMm: 204.2 })).toBe(true);
      const onCoupons = plan.marks.filter(({ role }) =>
        ['corner', 'identity', 'patch', 'edge', 'small-words'].includes(role),
      );
      for (const mark of onCoupons) {
        if (mark.kind === 'text') continue;
        expect(placed.some(({ rect }) => inside(mark.rect, rect))).toBe(true);
      }
    },
  );

  it('leaves white round the slanted square as far as is promised', () => {
    for (const material of ['hard', 'fabric'] as const) {
      const side = leastCouponMm(material);
      const layout = couponLayout(side, side, material)!;
      const { corners, clearMm } = layout.edgeTarget;
      const [left, right] = [
        Math.min(...corners.map(({ xMm }) => xMm)),
        Math.max(...corners.map(({ xMm }) => xMm)),
      ];
      const [top, bottom] = [
        Math.min(...corners.map(({ yMm }) => yMm)),
        Math.max(...corners.map(({ yMm }) => yMm)),
      ];
      const near = [
        layout.frame.qr,
        ...layout.frame.markers.map(({ rect }) => rect),
        ...layout.patches.map(({ rect }) => rect),
        ...layout.words.map(({ box }) => box),
      ];
      for (const { xMm, yMm, widthMm, heightMm } of near) {
        const away = Math.max(left - (xMm + widthMm), xMm - right, top - (yMm + heightMm), yMm - bottom);
        expect(away).toBeGreaterThan(clearMm - 0.35);
      }
      // ISO 12233: about 5° off.
      const [a, b] = [corners[0]!, corners[1]!];
      expect((Math.atan2(b.yMm - a.yMm, b.xMm - a.xMm) * 180) / Math.PI).toBeCloseTo(5, 6);
      expect(layout.ground.places.length).toBeGreaterThan(100);
    }
  });

  it('refuses what cannot be, and says how many fit', () => {
    const plan = (more: object) => () =>
      planLadderSheet({ ...a4, material: 'hard', coupons: coupons(9), ...more });
    expect(codeOf(plan({ coupons: [] }))).toBe('request.invalid');
    expect(codeOf(plan({ coupons: [{ number: 1 }, { number: 1 }] }))).toBe('request.invalid');
    expect(codeOf(plan({ coupons: [{ number: 17 }] }))).toBe('request.invalid');
    expect(codeOf(plan({ couponWidthMm: 30 }))).toBe('sheet.impossible');
    expect(codeOf(plan({ widthMm: 100, heightMm: 148 }))).toBe('sheet.impossible');
    expect(codeOf(plan({ widthMm: Number.NaN }))).toBe('sheet.impossible');
    expect(codeOf(plan({ coupons: [{ number: 3 }] }))).toBeUndefined();
  });
});

describe('an evenness sheet', () => {
  it.each([
    [210, 297, 'hard', 300],
    [210, 297, 'fabric', 300],
    [400, 500, 'hard', 340],
    [110, 110, 'hard', 200],
  ] as const)(
    '%d × %d mm for %s has some %d cells of one tone and nothing covered',
    (widthMm, heightMm, material, cells) => {
      const { plan, layout } = planEvennessSheet({ ...a4, widthMm, heightMm, material });
      expect(layout.patches.length).toBeGreaterThan(cells * 0.8);
      expect(new Set(layout.patches.map(({ deviceRgb }) => deviceRgb.join())).size).toBe(1);
      expect(overlaps(plan)).toEqual([]);
    },
  );

  it('is refused where a map has no room', () => {
    expect(codeOf(() => planEvennessSheet({ ...a4, widthMm: 60, heightMm: 30, material: 'fabric' }))).toBe(
      'sheet.impossible',
    );
  });
});
