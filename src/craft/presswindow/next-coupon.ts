import { choleskyInPlace, solveCholesky } from '#craft/numerics';
import { curveAt } from './curves.js';
import { asideOf, type LadderFit, lawOf } from './fit-ladder.js';
import { logDose } from './kinetics.js';
import { worldWindows } from './press-window.js';
import { median, standardDeviation } from './quantile.js';
import type { PressLimits, PressStep } from './types.js';
import { usualRules, type WindowPlace, type WindowRules } from './window.js';

export interface NextCoupon {
  readonly step: PressStep;
  /** Standard deviation of ln of the window's middle, now and as expected with this coupon. */
  readonly sdLogNow: number;
  readonly sdLogThen: number;
}

/**
 * Which coupon would make the middle of the window surest. Over the drawn worlds the middle and what a coupon would show
 * vary together; a linear update tells how much of the middle's variance the coupon takes away (as in the ensemble Kalman
 * filter, Evensen, J. Geophys. Res. 99, 1994). Best first.
 */
export function nextCoupons(
  fit: LadderFit,
  place: WindowPlace,
  limits: PressLimits,
  rules: WindowRules = usualRules,
  count = 3,
): NextCoupon[] {
  const middles = worldWindows(fit, place, rules).map(({ middle }) => middle);
  const sdLogNow = standardDeviation(middles);
  const found = candidates(fit, place, limits).map((step) => ({
    step,
    sdLogNow,
    sdLogThen: sdLogNow * Math.sqrt(Math.max(0, 1 - shareTold(fit, step, middles))),
  }));
  return found.sort((a, b) => a.sdLogThen - b.sdLogThen).slice(0, count);
}

function candidates(fit: LadderFit, place: WindowPlace, limits: PressLimits): PressStep[] {
  const [low, high] = place.dwellSeconds;
  const times = [
    ...new Set(Array.from({ length: 12 }, (_, i) => Math.round(low * (high / low) ** (i / 11)))),
  ].filter((s) => s >= limits.dwellSeconds[0] && s <= limits.dwellSeconds[1]);
  const temperatures = new Set([place.platenC]);
  if (fit.activation.isFitted)
    for (const { step } of fit.coupons)
      if (step.platenC >= limits.platenC[0] && step.platenC <= limits.platenC[1])
        temperatures.add(step.platenC);
  const pressures = new Set([place.pressureBar]);
  if (fit.pressureExponent.isFitted) for (const { step } of fit.coupons) pressures.add(step.pressureBar);
  return [...temperatures].flatMap((platenC) =>
    [...pressures].flatMap((pressureBar) =>
      times.map((dwellSeconds) => ({
        platenC,
        dwellSeconds,
        ...(pressureBar === undefined ? {} : { pressureBar }),
      })),
    ),
  );
}

/** Share of the middle's variance that the coupon's values would explain. */
function shareTold(fit: LadderFit, step: PressStep, middles: readonly number[]): number {
  const n = fit.draws.length;
  const measured = fit.responses.flatMap((response, r) =>
    /^(chroma|greyHue|smallText)/.test(response.id) ? [] : [r],
  );
  const p = measured.length;
  const aside = asideOf(step, fit);
  const values = measured.map((r) =>
    fit.draws.map((draw) => {
      const z = logDose(step, lawOf(fit, draw)) - draw.middleLogDose;
      return curveAt(fit.responses[r]!.curve, draw.theta[r]!, z, aside);
    }),
  );
  const centred = values.map((row) => {
    const mean = row.reduce((a, b) => a + b, 0) / n;
    return row.map((v) => v - mean);
  });
  const meanMiddle = middles.reduce((a, b) => a + b, 0) / n;
  const matrix = new Float64Array(p * p);
  const joint = new Float64Array(p);
  for (let a = 0; a < p; a += 1) {
    for (let b = 0; b <= a; b += 1)
      matrix[a * p + b] = centred[a]!.reduce((sum, v, i) => sum + v * centred[b]![i]!, 0) / n;
    const { evidence, scatters } = fit.responses[measured[a]!]!;
    // A reading's own error and the press's scatter; a judgement by eye tells less than its sd says, as a reading would.
    const sd = median(evidence.map((e) => (e.kind === 'reading' ? e.sd : 1.5 * e.sd)));
    matrix[a * p + a] = matrix[a * p + a]! + sd ** 2 + scatters[Math.min(2, scatters.length - 1)]! ** 2;
    joint[a] = centred[a]!.reduce((sum, v, i) => sum + v * (middles[i]! - meanMiddle), 0) / n;
  }
  const variance = middles.reduce((sum, m) => sum + (m - meanMiddle) ** 2, 0) / n;
  if (!(variance > 0) || p === 0 || !choleskyInPlace(matrix, p)) return 0;
  const weights = solveCholesky(matrix, p, joint);
  return Math.min(1, weights.reduce((sum, w, i) => sum + w * joint[i]!, 0) / variance);
}
