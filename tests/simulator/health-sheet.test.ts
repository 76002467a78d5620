import { describe, expect, it } from 'vitest';
import { readCombs, readLadder, readSlant, readTint } from '#craft/healthreading';
import { type SampledPicture, srgbCurve } from '#craft/patchreading';
import type { PlaneMap } from '#craft/reading';
import { type Mark, newSheetId, type RectMm, type Rgb8 } from '#craft/sheet';
import { type HealthLadder, planHealthSheet } from '#craft/testsheet';
import { type FaultyPrinter, firedBy, printPart, soundPrinter } from './faulty-printer.js';
import { type Picture, scan, toBytes } from './index.js';

const { plan, layout } = planHealthSheet({
  sheetId: newSheetId(Uint8Array.of(5, 5, 1, 2, 3, 4)),
  widthMm: 148,
  heightMm: 210,
  marginMm: 3,
  mirrorOnWriting: false,
});
const curve = srgbCurve(8);

/** A printed part scanned, and where the sheet lies in it; known to 0.05 mm, as from the squares. */
function scanned(
  printed: Picture,
  part: RectMm,
  ppi: number,
  seed: number,
  extra: { turnDegrees?: number; blurPixels?: number } = {},
  /** The sheet is taken to lie turned by so much more than it does. */
  misturnDegrees = 0,
): { picture: SampledPicture; map: PlaneMap } {
  const turnDegrees = extra.turnDegrees ?? 0.7;
  const seen = scan(printed, { ppi, seed, ...extra, turnDegrees });
  const perMm = ppi / 25.4;
  const angle = ((turnDegrees + misturnDegrees) * Math.PI) / 180;
  const [c, s] = [perMm * Math.cos(angle), perMm * Math.sin(angle)];
  const [mx, my] = [part.xMm + part.widthMm / 2 + 0.04, part.yMm + part.heightMm / 2 - 0.03];
  const map: PlaneMap = [
    c,
    -s,
    seen.width / 2 - c * mx + s * my,
    s,
    c,
    seen.height / 2 - s * mx - c * my,
    0,
    0,
    1,
  ];
  const { width, height } = seen;
  return { picture: { width, height, data: toBytes(seen), toLinear: [curve, curve, curve] }, map };
}
const round = (rect: RectMm, by: number): RectMm => ({
  xMm: rect.xMm - by,
  yMm: rect.yMm - by,
  widthMm: rect.widthMm + 2 * by,
  heightMm: rect.heightMm + 2 * by,
});
const ladderPart = ({ columnXMm, firstYMm, steps, stepMm, lineMm }: HealthLadder): RectMm =>
  round(
    { xMm: columnXMm[0]!, yMm: firstYMm, widthMm: columnXMm.length * lineMm, heightMm: steps * stepMm },
    0.8,
  );
const { combs } = layout;
const combsPart: RectMm = {
  xMm: combs.xMm[0]! - 0.8,
  yMm: combs.firstYMm - 0.5,
  widthMm: 12 * 1.6,
  heightMm: 420 * combs.rowMm,
};
/** Half the columns and of their height, so that the test stays quick: a harder case than the whole. */
const fewerCombs = { ...combs, rows: 405, xMm: combs.xMm.slice(0, 12) };

const ladderOf = (ink: string) => layout.ladders.find((one) => one.ink === ink)!;
const tenth: Partial<FaultyPrinter> = { bidirectionalMm: 0.1 };

function combsOf(how: Partial<FaultyPrinter>, ppis: readonly number[], seed = 1, misturnDegrees = 0) {
  const printed = printPart(plan, combsPart, { ...soundPrinter, seed, ...how });
  return ppis.map((ppi) => {
    const { picture, map } = scanned(printed, combsPart, ppi, seed, {}, misturnDegrees);
    return readCombs(picture, map, fewerCombs);
  });
}
/** One line with half its drops, as where one of two nozzles that fill a row does not fire. */
function withWeakLine({ columnXMm, firstYMm, stepMm, deviceRgb }: HealthLadder, step: number | null) {
  if (step === null) return plan;
  const [x, y] = [columnXMm[step % columnXMm.length]!, firstYMm + (step - 0.5) * stepMm];
  const isIt = (mark: Mark): boolean =>
    mark.kind === 'fill' && Math.hypot(mark.rect.xMm - x, mark.rect.yMm - y) < 1e-6;
  const half = deviceRgb.map((v) => (v === 0 ? 128 : v)) as unknown as Rgb8;
  return {
    marks: plan.marks.map((mark) => (mark.kind === 'fill' && isIt(mark) ? { ...mark, rgb: half } : mark)),
  };
}

function laddersOf(
  ink: string,
  how: Partial<FaultyPrinter>,
  ppis: readonly number[],
  seed = 1,
  weakStep: number | null = null,
) {
  const ladder = ladderOf(ink);
  const printed = printPart(withWeakLine(ladder, weakStep), ladderPart(ladder), {
    ...soundPrinter,
    seed,
    ...how,
  });
  return ppis.map((ppi) => {
    const { picture, map } = scanned(printed, ladderPart(ladder), ppi, seed);
    return readLadder(picture, map, ladder);
  });
}
const firstRow = (ladder: HealthLadder): number => Math.round(ladder.firstYMm / ladder.stepMm - 0.5);
const stepsOf = (ladder: HealthLadder, nozzle: number): number[] =>
  Array.from({ length: ladder.steps }, (_, k) => k).filter(
    (k) => firedBy(k + firstRow(ladder), soundPrinter)?.nozzle === nozzle,
  );

const fault = (ink: 'yellow' | 'black') => ({
  missing: [{ ink, nozzle: 40 }],
  deflected: [{ ink, nozzle: 61, dxMm: 0, dyMm: 0.05 }],
});

describe('ladders, from scans of drops', () => {
  it.each(['yellow'] as const)('the one missing and the one crooked nozzle of %s', (ink) => {
    const ladder = ladderOf(ink);
    const [fine, coarse] = laddersOf(ink, fault(ink), [600, 300], 1, 200);
    expect(stepsOf(ladder, 40).length).toBeGreaterThan(2);
    for (const seen of [fine!, coarse!]) {
      if (!seen.isMeasured) throw new Error(seen.because);
      expect(seen.missing.map(({ step }) => step)).toEqual(stepsOf(ladder, 40));
      expect(seen.weak.map(({ step }) => step)).toEqual([200]);
      expect(seen.deflected.map(({ step }) => step)).toEqual(stepsOf(ladder, 61));
      for (const { offUm } of seen.deflected) expect(Math.abs(offUm - 50)).toBeLessThan(8);
    }
  });

  it('a sound printer’s: no false alarm in 738 lines, one of them restless; too soft a scan says so', () => {
    const ladder = ladderOf('cyan');
    const restless = { ...soundPrinter, scatterMm: 0.012, feedJitterMm: 0.008, seed: 5 };
    const printed = printPart(plan, ladderPart(ladder), restless);
    const seen = [600, 300].map((ppi) => {
      const { picture, map } = scanned(printed, ladderPart(ladder), ppi, 5);
      return readLadder(picture, map, ladder);
    });
    for (const one of [...seen, ...laddersOf('black', {}, [600], 6)]) {
      if (!one.isMeasured) throw new Error(one.because);
      expect([one.missing, one.weak, one.deflected]).toEqual([[], [], []]);
    }
    const blurred = scanned(printed, ladderPart(ladder), 300, 1, { blurPixels: 2.5 });
    const soft = readLadder(blurred.picture, blurred.map, ladder);
    expect(soft.isMeasured).toBe(false);
    const coarse = scanned(printed, ladderPart(ladder), 150, 1);
    const few = readLadder(coarse.picture, coarse.map, ladder);
    expect(few.isMeasured === false && few.because).toMatch(/pixels apart/);
  });
});

describe('passes to the left against passes to the right', () => {
  it.each([
    ['woven row by row', {}],
    ['in bands', { nozzles: 90, nozzlePitchRows: 1 }],
  ])('an offset of 0.10 mm is measured within 0.02 mm, %s', (kind, how) => {
    // 0.04° is 40 µm over the whole height of the combs: twice what the squares leave.
    const [fine, coarse] = combsOf({ ...tenth, ...how }, [600, 300], 1, 0.04);
    for (const seen of [fine!, coarse!]) {
      if (!seen.isMeasured) throw new Error(seen.because);
      expect(seen.heaps).toBe(2);
      // Asked for: within 20 µm at 600 ppi.
      expect(Math.abs(seen.offsetUm - 100)).toBeLessThan(8);
      expect(Math.abs(seen.offsetUm - 100)).toBeLessThan(1.5 * seen.uncertaintyUm);
      expect(seen.pattern?.kind).toBe(kind === 'in bands' ? 'bands' : 'woven');
      if (seen.pattern?.kind === 'bands') {
        expect(Math.abs(seen.pattern.heightMm - (90 * 25.4) / 360)).toBeLessThan(0.15);
      }
    }
  });

  it('with none there is one heap, and the least that would have been told', () => {
    const [seen] = combsOf({ scatterMm: 0.012 }, [600], 4, 0.08);
    if (!seen?.isMeasured) throw new Error('not measured');
    expect([seen.heaps, seen.offsetUm]).toEqual([1, 0]);
    expect(seen.uncertaintyUm).toBeLessThan(25);
  });
});

describe('tints and edges', () => {
  const tint = layout.tints[0]!;
  const heightMm = 36;
  const part = { ...tint.rect, xMm: tint.rect.xMm - 0.2, widthMm: 13.2, heightMm: heightMm + 1 };
  const cut = { ...tint, rect: { ...tint.rect, heightMm }, ground: { ...tint.ground, heightMm } };
  const bandsOf = (how: Partial<FaultyPrinter>) => {
    const { picture, map } = scanned(printPart(plan, part, { ...soundPrinter, ...how }), part, 600, 3);
    const { banding } = readTint(picture, map, cut, (60 * 25.4) / 360);
    if (!banding.isMeasured) throw new Error(banding.because);
    return banding;
  };

  it('a nozzle missing in bands of 60 rows leaves a white line a pass', () => {
    const seen = bandsOf({ missing: [{ ink: 'cyan', nozzle: 5 }], nozzles: 60, nozzlePitchRows: 1 });
    expect(seen.matchesPass).toBe('pass');
    expect(Math.abs(seen.periodMm! / ((60 * 25.4) / 360) - 1)).toBeLessThan(0.02);
    expect(seen.amplitudeL).toBeGreaterThan(0.5);
    expect(seen.isReaders).toBe(false);
  });

  it('a sound printer’s tint has no bands', () => {
    expect(bandsOf({}).periodMm).toBeNull();
  });

  it('passes apart soften upright edges and leave level ones', () => {
    const slant = layout.slants[3]!;
    const [left, top] = [slant.corners[0]!.xMm - 2, slant.corners[0]!.yMm - 2];
    const square = { xMm: left, yMm: top, widthMm: 14, heightMm: 14 };
    const { picture, map } = scanned(printPart(plan, square, { ...soundPrinter, ...tenth }), square, 600, 3);
    const seen = readSlant(picture, map, slant);
    if (!seen.isMeasured) throw new Error(seen.because);
    // Two Gaussian edges 0.1 mm apart: about a Gaussian whose σ has grown by half of that, in squares.
    const apart = (2 * Math.sqrt(seen.acrossUm! ** 2 - seen.alongUm! ** 2)) / 2.563;
    expect(Math.abs(apart - 100)).toBeLessThan(20);
  });
});
