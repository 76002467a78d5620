import { Problem } from '#craft/problem';
import { curveAt } from './curves.js';
import type { Evidence } from './evidence.js';
import { type CouponsAt, type CurveFit, fitCurve } from './fit-curve.js';
import { standardDeviation } from './quantile.js';
import type { Response } from './responses.js';
import type { Coupon, PressStep } from './types.js';

const browner = { green: 0, neutral: 1, brown: 2 } as const;

/**
 * A coupon pressed no cooler, no shorter and no lighter than another has had no less dose, whatever the dose law.
 * @throws Problem `ladder.unusable` when eyes say the opposite from end to end: brown on less, green on more
 */
export function contradictions(coupons: readonly Coupon[]): void {
  for (const less of coupons)
    for (const more of coupons) {
      if (!hasMore(more.step, less.step)) continue;
      if (less.byEye?.black !== 'brown' || more.byEye?.black !== 'green') continue;
      throw new Problem(
        'ladder.unusable',
        `Coupon ${less.id} looks brown though it was pressed less than coupon ${more.id}, which looks green.`,
        {
          remedy: 'Look at both again in daylight, and see whether their settings were exchanged.',
          where: less.id,
        },
      );
    }
}

/** Smaller reversals are fitted, and said. */
export function smallReversals(coupons: readonly Coupon[]): string[] {
  const out: string[] = [];
  for (const less of coupons)
    for (const more of coupons) {
      if (!hasMore(more.step, less.step)) continue;
      const [a, b] = [less.byEye, more.byEye];
      if (a?.black && b?.black && browner[a.black] > browner[b.black])
        out.push(
          `By eye coupon ${less.id} is ${a.black} and coupon ${more.id}, pressed more, ${b.black}: the judgements do not quite agree.`,
        );
      if (a?.edges === 'soft' && b?.edges === 'crisp')
        out.push(
          `By eye the edges of coupon ${less.id} are soft and those of coupon ${more.id}, pressed more, crisp: the judgements do not quite agree.`,
        );
    }
  return out;
}

function hasMore(a: PressStep, b: PressStep): boolean {
  const [pa, pb] = [a.pressureBar ?? 1, b.pressureBar ?? 1];
  return (
    a.platenC >= b.platenC &&
    a.dwellSeconds >= b.dwellSeconds &&
    pa >= pb &&
    (a.platenC > b.platenC || a.dwellSeconds > b.dwellSeconds || pa > pb)
  );
}

/** Distances beyond this many standard deviations, on most of its values, make a coupon odd. */
const oddFrom = 4;
/** Exchanging two coupons must explain this much of the misfit, in ln likelihood, to be worth saying. */
const exchangeGain = 15;

/** Coupons that do not go with the others, in words: exchanged with another, or odd by themselves. */
export function oddCoupons(
  coupons: readonly Coupon[],
  responses: readonly Response[],
  fits: readonly CurveFit[],
  at: CouponsAt,
  repeats: number,
): string[] {
  const remarks = smallReversals(coupons);
  // Fitted with little scatter: a fit that was allowed to scatter has already made room for what is odd.
  const strict = responses.map(({ curve, evidence, scatters }, r) =>
    fitCurve(curve, evidence, at, scatters[Math.min(1, scatters.length - 1)]!, repeats, fits[r]!.theta),
  );
  const total = (changed: readonly { logEvidence: number }[]): number =>
    changed.reduce((sum, fit) => sum + fit.logEvidence, 0);
  const before = total(strict);
  let best = { gain: exchangeGain, pair: '' };
  for (let i = 0; i < coupons.length; i += 1)
    for (let j = 0; j < i; j += 1) {
      if (Math.abs(at.z[i]! - at.z[j]!) < 0.05) continue;
      const order = coupons.map((_, c) => (c === i ? j : c === j ? i : c));
      const exchanged = { z: order.map((c) => at.z[c]!), aside: order.map((c) => at.aside[c]!) };
      const after = responses.map(({ curve, evidence, scatters }, r) =>
        fitCurve(
          curve,
          evidence,
          exchanged,
          scatters[Math.min(1, scatters.length - 1)]!,
          repeats,
          strict[r]!.theta,
        ),
      );
      const gain = total(after) - before;
      if (gain > best.gain) best = { gain, pair: `${coupons[j]!.id} and ${coupons[i]!.id}` };
    }
  if (best.pair !== '') {
    remarks.push(
      `Coupons ${best.pair} look exchanged: the other way round they go with the rest. Look at their ids.`,
    );
    return remarks;
  }
  coupons.forEach(({ id }, c) => {
    const distances = responses.flatMap((response, r) =>
      leftOutDistances(response, fits[r]!, c, at, repeats),
    );
    const far = distances.filter((d) => d > oddFrom).length;
    if (far >= 2 && far > distances.length / 2)
      remarks.push(`Coupon ${id} does not go with the others. Look at it, and at how it was pressed.`);
  });
  return remarks;
}

/** How far a coupon's reading lies from what the others alone say, in standard deviations. */
function leftOutDistances(
  { curve, evidence, scatters }: Response,
  fit: CurveFit,
  coupon: number,
  at: CouponsAt,
  repeats: number,
): number[] {
  const isReading = (e: Evidence): e is Extract<Evidence, { kind: 'reading' }> => e.kind === 'reading';
  const own = evidence.filter(isReading).find((e) => e.coupon === coupon);
  const others = evidence.filter((e) => e.coupon !== coupon);
  if (own === undefined || others.length < 4) return [];
  const scatter = scatters[Math.min(1, scatters.length - 1)]!;
  const without = fitCurve(curve, others, at, scatter, repeats, fit.theta);
  const here = (theta: Float64Array): number => curveAt(curve, theta, at.z[coupon]!, at.aside[coupon]!);
  const p = without.theta.length;
  const said = here(without.theta);
  const worlds = Array.from({ length: p }, (_, k) => {
    // One standard deviation along each column of the spread.
    const theta = without.theta.map((v, i) => v + (i >= k ? without.spread[i * p + k]! : 0));
    return here(theta) - said;
  });
  const sd = Math.hypot(own.sd, scatter, 0.02 * Math.abs(standardDeviation([said, own.value])), ...worlds);
  return [Math.abs(own.value - said) / sd];
}
