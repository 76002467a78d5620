import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { towardsBrown } from '#craft/presswindow';
import { type ReaderMap, tagReaderMap } from '#craft/reader';
import { newSheetId } from '#craft/sheet';
import { planLadderSheet } from '#craft/testsheet';
import { closeVision, readCouponsPicture } from '#shop/vision';
import { chanceOf, type Picture, toFile, writeMarks } from '../../../tests/simulator/index.js';
import { hueOfBlack, transfer } from '../../../tests/simulator/press-transfer.js';
import { cutCoupon, pressedAt, scanOfCoupons } from '../../../tests/simulator/pressed-coupons.js';
import { type CouponSeen, couponValues } from './coupon-values.js';

afterAll(closeVision);

const ppi = 400;
const steps = [28, 40, 55, 80].map((dwellSeconds) => ({ platenC: 200, dwellSeconds }));
const repeats = 2;
/** What was read, by coupon and repeat; each repeat lies elsewhere, with other noise and dust. */
const seen: CouponSeen[][] = steps.map(() => []);
let map: ReaderMap;

beforeAll(async () => {
  const { plan } = planLadderSheet({
    sheetId: newSheetId(Uint8Array.of(7, 1, 7, 1, 7, 1)),
    widthMm: 110,
    heightMm: 110,
    marginMm: 3,
    material: 'hard',
    mirrorOnWriting: true,
    coupons: steps.map((_, i) => ({ number: i + 1, step: `${steps[i]!.dwellSeconds} s` })),
  });
  const sheet = await writeMarks(plan as never, plan.widthMm, plan.heightMm, ppi, { mirror: true });
  const written = await readCouponsPicture(await toFile(sheet, { format: 'png', ppi }));
  const pieces = steps.map((step, i): Picture => {
    const { outline } = written.coupons.find(({ number }) => number === i + 1)!.reading!;
    return pressedAt(cutCoupon(sheet, outline), step);
  });
  for (let repeat = 0; repeat < repeats; repeat += 1) {
    const picture = scanOfCoupons(pieces, chanceOf(50 + repeat), 80 + repeat, { columns: 2 });
    const { coupons } = await readCouponsPicture(await toFile(picture, { format: 'png', ppi }));
    expect(coupons.map(({ number }) => number).sort()).toEqual([1, 2, 3, 4]);
    map = tagReaderMap({ kind: 'scanner', groundRgb: coupons[0]!.reading!.ground.rgb });
    for (const { number, reading } of coupons) seen[number! - 1]!.push(couponValues(reading!, map));
  }
}, 120_000);

/** Against `press-transfer`, which knows nothing of coupons, scanners or this program's values. */
describe('values of coupons scanned', () => {
  it('densities are those the simulated press gave, within their stated doubt', () => {
    const z: number[] = [];
    const errors: number[] = [];
    steps.forEach((step, i) => {
      const truth = transfer(step).density;
      for (const { values } of seen[i]!) {
        for (const name of ['black', 'cyan', 'magenta', 'yellow'] as const) {
          // The simulator's figures are beside light of 1; its bare ground has 1.005 of it.
          const error = values.density![name]!.value - truth[name] - Math.log10(1.005);
          // Its black is weighed by other luminance weights (0.25, 0.65, 0.1) than linear sRGB's.
          if (name !== 'black') {
            errors.push(error);
            z.push(error / values.density![name]!.sd);
          } else expect(Math.abs(error)).toBeLessThan(0.1);
        }
      }
    });
    const rms = (v: number[]): number => Math.sqrt(v.reduce((s, x) => s + x * x, 0) / v.length);
    console.log(`density: rms error ${rms(errors).toFixed(4)}, in its own doubts ${rms(z).toFixed(2)}`);
    expect(rms(errors)).toBeLessThan(0.015);
    expect(rms(z)).toBeLessThan(2);
  });

  it('scanned again they scatter as they say, neither far less nor far more', () => {
    const ratios: number[] = [];
    for (const same of seen) {
      for (const name of ['black', 'cyan', 'magenta', 'yellow'] as const) {
        const values = same.map((one) => one.values.density![name]!);
        const mean = values.reduce((sum, { value }) => sum + value, 0) / repeats;
        for (const { value, sd } of values)
          ratios.push((((value - mean) / sd) ** 2 * repeats) / (repeats - 1));
      }
    }
    const ratio = Math.sqrt(ratios.reduce((sum, v) => sum + v, 0) / ratios.length);
    console.log(`density: scatter over stated ${ratio.toFixed(2)}`);
    expect(ratio).toBeGreaterThan(0.15);
    expect(ratio).toBeLessThan(1.3);
  });

  it('black goes from green to brown as it does in the press', () => {
    steps.forEach((step, i) => {
      for (const { values } of seen[i]!) {
        const hue = towardsBrown(values.blackLab!.lab);
        console.log(
          `${step.dwellSeconds} s: hue ${hue.toFixed(2)} for ${hueOfBlack(transfer(step)).toFixed(2)}, sd ${values.blackLab!.sdLab.map((v) => v.toFixed(2))}, edge ${values.edgeUm!.value.toFixed(0)} ± ${values.edgeUm!.sd.toFixed(0)} for ${transfer(step).edgeUm.toFixed(0)}, text ${values.smallText!.value.toFixed(2)}, chroma ${values.chroma!.cyan!.value.toFixed(1)} ± ${values.chroma!.cyan!.sd.toFixed(1)}`,
        );
        expect(Math.abs(hue - hueOfBlack(transfer(step)))).toBeLessThan(0.5);
      }
    });
  });

  it('edges are those of the print, the scanner’s own softness taken out', () => {
    steps.forEach((step, i) => {
      for (const { values } of seen[i]!) {
        const { value, sd } = values.edgeUm!;
        expect(Math.abs(value / transfer(step).edgeUm - 1), `${step.dwellSeconds} s`).toBeLessThan(0.15);
        expect(sd).toBeLessThan(0.2 * value);
      }
    });
  });
});
