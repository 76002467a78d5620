import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import { srgbFromLab, type Triple } from '#craft/colour';
import { isProblem } from '#craft/problem';
import { newSheetId } from '#craft/sheet';
import { planGreySheet } from './index.js';
import { inside, overlaps, printedBoxes } from './testing/boxes.js';
import type { GreySheetOrder } from './types.js';

const sheetId = newSheetId(Uint8Array.of(4, 8, 15, 16, 23, 42));
const order = (widthMm = 210, heightMm = 297, more: Partial<GreySheetOrder> = {}): GreySheetOrder => ({
  sheetId,
  widthMm,
  heightMm,
  marginMm: 3,
  mirrorOnWriting: true,
  ...more,
});
/** colorjs.io as the outside reader: sRGB bytes → CIELAB, D50. */
const labOf = (rgb: readonly number[]): number[] =>
  [...new Color('srgb', rgb.map((v) => v / 255) as [number, number, number]).to('lab').coords].map(Number);

const papers = [
  [210, 297, 3],
  [210, 297, 5],
  [297, 210, 3],
  [215.9, 279.4, 6.35],
  [297, 420, 5],
  [610, 1000, 5],
] as const;

describe('a grey sheet', () => {
  it.each(papers)(
    'on %d × %d mm: every patch at least 12 mm, nothing over anything else',
    (w, h, marginMm) => {
      const { plan, rows, tone } = planGreySheet(order(w, h, { marginMm }));
      const patches = plan.marks.flatMap((mark) =>
        mark.kind === 'fill' && mark.role === 'patch' ? [mark] : [],
      );
      const wanted =
        rows.flatMap(({ candidates }) => candidates).length + tone.flatMap(({ steps }) => steps).length;
      // Round each step from black there is black.
      const around = patches.filter(({ rect }, i) =>
        patches.slice(i + 1).some((other) => inside(other.rect, rect)),
      );
      expect(around.length).toBe(12);
      expect(around.every(({ rgb }) => rgb.join() === '0,0,0')).toBe(true);
      const judged = patches.filter((patch) => !around.includes(patch));
      expect(judged.length).toBe(wanted);
      for (const { rect } of judged) {
        expect(Math.min(rect.widthMm, rect.heightMm)).toBeGreaterThanOrEqual(12 - 1e-9);
      }
      expect(overlaps(plan, (mark) => !around.includes(mark as never))).toEqual([]);
      const printable = {
        xMm: marginMm - 0.01,
        yMm: marginMm - 0.01,
        widthMm: w - 2 * marginMm + 0.02,
        heightMm: h - 2 * marginMm + 0.02,
      };
      for (const box of printedBoxes(plan)) expect(inside(box, printable)).toBe(true);
      expect(plan.frame).not.toBeNull();
      expect(plan.mirrorOnWriting).toBe(true);
    },
  );

  it('for a plain driver: near-neutrals up to 10 off round five greys, as colorjs.io sees their sRGB', () => {
    const { rows } = planGreySheet(order());
    expect(rows.map(({ candidates }) => candidates.length)).toEqual([19, 19, 19, 19, 19]);
    rows.forEach(({ candidates, level }, row) => {
      const middle = candidates.find(({ aStep, bStep }) => aStep === 0 && bStep === 0)!;
      const [grey] = labOf(middle.deviceRgb);
      expect(Math.abs(grey! - [25, 40, 55, 70, 85][row]!)).toBeLessThan(0.3);
      expect(level).toBeCloseTo(middle.deviceRgb[0] / 255, 6);
      for (const { deviceRgb, aStep, bStep } of candidates) {
        const [l, a, b] = labOf(deviceRgb);
        // Half a code of 8 bits is up to 0.35 in a* and b* of dark greys.
        expect(Math.abs(a! - aStep)).toBeLessThan(0.6);
        expect(Math.abs(b! - bStep)).toBeLessThan(0.6);
        expect(Math.abs(l! - grey!)).toBeLessThan(0.6);
      }
      const radii = candidates.map(({ aStep, bStep }) => Math.round(Math.hypot(aStep, bStep)));
      expect(radii.filter((r) => r === 4)).toHaveLength(6);
      expect(radii.filter((r) => r === 10)).toHaveLength(12);
    });
  });

  it('through a path: finer steps, so that what is left of a cast is settled', () => {
    const radii = (deviceOf: (lab: Triple) => Triple): number[] =>
      planGreySheet(order(210, 297, { deviceOf })).rows[2]!.candidates.map(({ aStep, bStep }) =>
        Math.round(Math.hypot(aStep, bStep)),
      );
    // A path that takes a warm cast away.
    const balanced = radii(([l, a, b]) => srgbFromLab([l, a - 2, b - 4]));
    expect(balanced.filter((r) => r === 3)).toHaveLength(6);
    expect(balanced.filter((r) => r === 6)).toHaveLength(12);
    // The plain driver is the plain driver, said or not.
    expect(Math.max(...radii(srgbFromLab))).toBe(10);
  });

  it('lies as it is said: to the right redder, upwards yellower, each name under its patch', () => {
    const { plan, rows } = planGreySheet(order());
    const texts = plan.marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
    const fills = plan.marks.flatMap((mark) => (mark.kind === 'fill' ? [mark] : []));
    const placeOf = (label: string) => {
      const text = texts.find((mark) => mark.text === label)!;
      const above = fills.filter(
        ({ rect, role }) =>
          role === 'patch' &&
          Math.abs(rect.xMm - text.xMm) < 1e-9 &&
          rect.yMm + rect.heightMm <= text.yMm - text.capHeightMm,
      );
      return above.toSorted((a, b) => b.rect.yMm - a.rect.yMm)[0]!;
    };
    for (const { candidates } of rows) {
      for (const { label, deviceRgb } of candidates) expect(placeOf(label).rgb).toEqual(deviceRgb);
      const by = (near: (c: (typeof candidates)[number]) => boolean) =>
        placeOf(candidates.find(near)!.label).rect;
      const middle = by(({ aStep, bStep }) => aStep === 0 && bStep === 0);
      expect(by(({ aStep, bStep }) => aStep === 10 && bStep === 0).xMm).toBeGreaterThan(middle.xMm);
      expect(by(({ aStep, bStep }) => aStep === 0 && bStep === 10).yMm).toBeLessThan(middle.yMm);
    }
  });

  it('names every patch once, in words that can be said', () => {
    const { rows, tone } = planGreySheet(order());
    const labels = [
      ...rows.flatMap(({ candidates }) => candidates),
      ...tone.flatMap(({ steps }) => steps),
    ].map(({ label }) => label);
    expect(new Set(labels).size).toBe(labels.length);
    for (const label of labels) expect(label).toMatch(/^[A-H][1-9][0-9]?$/);
  });

  it('has steps of tone away from black, away from white, and round an 18 % card', () => {
    const { tone } = planGreySheet(order());
    const lightness = (question: string): number[] =>
      tone.find((row) => row.question === question)!.steps.map(({ deviceRgb }) => labOf(deviceRgb)[0]!);
    const rises = (values: number[]): boolean => values.every((v, i) => i === 0 || v > values[i - 1]!);
    expect(rises(lightness('from-black'))).toBe(true);
    expect(lightness('from-black')[0]!).toBeLessThan(3);
    expect(rises(lightness('from-white').toReversed())).toBe(true);
    expect(lightness('from-white')[0]!).toBeGreaterThan(99);
    // CIE 015:2018, 8.2.1 with Y = 0.18.
    const card = 116 * Math.cbrt(0.18) - 16;
    expect(card).toBeCloseTo(49.5, 1);
    const like = lightness('like-card');
    expect(rises(like)).toBe(true);
    expect(Math.min(...like.map((l) => Math.abs(l - card)))).toBeLessThan(1.6);
  });

  it('still has steps that differ where a path clips darks, lights and strong colours', () => {
    // A path whose black is L* 22 and whose lightest grey is a little short of bare ground.
    const deviceOf = ([l, a, b]: Triple): Triple => {
      const t = Math.min(1, Math.max(0, (l - 22) / 76));
      const grey = 0.06 + 0.9 * t;
      return [grey + a / 200, grey, grey - b / 200].map((v) =>
        Math.min(1, Math.max(0, v)),
      ) as unknown as Triple;
    };
    const { rows, tone } = planGreySheet(order(210, 297, { deviceOf }));
    for (const { steps, question } of tone) {
      const codes = steps.map(({ deviceRgb }) => deviceRgb.join());
      expect(new Set(codes).size, question).toBe(codes.length);
    }
    for (const { candidates } of rows.slice(1)) {
      expect(new Set(candidates.map(({ deviceRgb }) => deviceRgb.join())).size).toBe(19);
    }
  });

  it.each([
    [148, 210],
    [100, 150],
    [297, 150],
    [40, 30],
  ])('refuses %d × %d mm in a sentence', (w, h) => {
    try {
      planGreySheet(order(w, h));
      expect.unreachable();
    } catch (error) {
      expect(isProblem(error) && error.code).toBe('sheet.impossible');
      expect(isProblem(error) && `${error.message} ${error.remedy}`).toMatch(/mm.* A4 or larger/);
    }
  });
});
