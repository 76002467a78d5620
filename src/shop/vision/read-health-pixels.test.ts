import { beforeAll, describe, expect, it } from 'vitest';
import { feedError, type HealthReading, judgeHealth } from '#craft/healthreading';
import { type SampledPicture, srgbCurve } from '#craft/patchreading';
import { newSheetId } from '#craft/sheet';
import { type HealthSheetOrder, planHealthSheet } from '#craft/testsheet';
import {
  blank,
  drive,
  ink,
  type Picture,
  scan,
  toBytes,
  writeMarks,
} from '../../../tests/simulator/index.js';
import { loadOpenCv, type OpenCv } from './open-cv.js';
import { readHealthPixels } from './read-health-pixels.js';

const ppi = 160;
const order: HealthSheetOrder = {
  sheetId: newSheetId(Uint8Array.of(9, 5, 1, 2, 3, 4)),
  // Whole pixels, or drawing it would stretch it by as much as is to be measured.
  widthMm: 152.4,
  heightMm: 215.9,
  marginMm: 3,
  mirrorOnWriting: true,
};
const curve = srgbCurve(8);
const sampled = (picture: Picture): SampledPicture => ({
  width: picture.width,
  height: picture.height,
  data: toBytes(picture),
  toLinear: [curve, curve, curve],
});

let cv: OpenCv;
let upright: HealthReading;
let turned: HealthReading;

beforeAll(async () => {
  ({ cv } = await loadOpenCv());
  const { plan } = planHealthSheet(order);
  const written = await writeMarks(plan as never, plan.widthMm, plan.heightMm, ppi, { mirror: true });
  const paper = ink(drive(written, { scaleAlong: 1.003 }), { spreadMm: 0.04 });
  const read = (turnDegrees: number): HealthReading => {
    const seen = scan(paper, { ppi, turnDegrees, alongError: -0.004, seed: 7 });
    const answer = readHealthPixels(cv, sampled(seen), order);
    if (answer.kind !== 'read') throw new Error(JSON.stringify(answer));
    return answer.reading;
  };
  upright = read(0.8);
  turned = read(90.5);
});

describe('a whole health sheet, mirrored, found by its marks', () => {
  it('a feed 0.3 % too long and a scanner 0.4 % too short are parted by two scans, not by one', () => {
    expect(upright.surface).toBe('paper');
    expect(Math.abs(upright.feed.errorPercent - -0.1)).toBeLessThan(0.04);
    expect(Math.abs(turned.feed.errorPercent - 0.7)).toBeLessThan(0.04);
    const both = feedError([upright.lengths, turned.lengths]);
    expect(Math.abs(both.errorPercent - 0.3)).toBeLessThan(0.03);
    expect(Math.abs(both.scannerPercent! - -0.4)).toBeLessThan(0.03);
    expect(both.uncertaintyPercent).toBeLessThan(0.06);
    expect(Math.abs(both.errorPercent - 0.3)).toBeLessThan(1.5 * both.uncertaintyPercent);
    const verdict = judgeHealth(upright, both);
    expect(verdict.state).toBe('ailing');
    expect(verdict.findings).toHaveLength(1);
    expect(verdict.findings[0]).toMatch(/^Lengths along the feed are 0\.\d\d ± 0\.0\d % too long/);
    expect(verdict.acts.map(({ kind }) => kind)).toEqual(['adjust-feed']);
  });

  it('what 160 ppi cannot tell is said to be so, and nothing is invented', () => {
    for (const { ladder, banding, sharpness, solidDensity } of upright.inks) {
      expect(ladder.isMeasured === false && ladder.because).toMatch(/pixels apart/);
      expect(banding.isMeasured && banding.periodMm).toBe(null);
      expect(sharpness.isMeasured).toBe(true);
      expect(solidDensity.isMeasured && solidDensity.pinholeShare).toBe(0);
    }
    expect(upright.twoWay.isMeasured).toBe(false);
    const one = judgeHealth(upright);
    expect(one.state).toBe('unsure');
    expect(one.findings).toEqual([]);
    expect(one.untold.length).toBeGreaterThan(4);
  });

  it('another sheet, or no sheet, is no health sheet', () => {
    const grey = blank(600, 800, 100, [0.8, 0.8, 0.8]);
    expect(readHealthPixels(cv, sampled(grey), order)).toEqual({ kind: 'no-sheet', sheetIds: [] });
  });
});
