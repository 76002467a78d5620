import { logNormalCdf, normalDensity } from './normal.js';

/** What one coupon says about one value: a reading, or only on which side of which bound it lies, as eyes judge. */
export type Evidence =
  | { readonly kind: 'reading'; readonly coupon: number; readonly value: number; readonly sd: number }
  | {
      /** The value seen lies between the bounds; eyes differ by `sd`. */
      readonly kind: 'between';
      readonly coupon: number;
      readonly low: number;
      readonly high: number;
      readonly sd: number;
    };

export interface Misfit {
  /** −ln likelihood, without constants that depend on neither value nor sd. */
  readonly value: number;
  readonly slope: number;
  /** Positive, near enough to the second derivative. */
  readonly curvature: number;
}

/** −ln p(evidence | y), where coupons scatter by `scatter` beyond what their readings do. */
export function misfit(evidence: Evidence, y: number, scatter: number): Misfit {
  const sd = Math.hypot(evidence.sd, scatter);
  if (evidence.kind === 'reading') {
    const r = (y - evidence.value) / sd;
    return { value: 0.5 * r * r + Math.log(sd), slope: r / sd, curvature: 1 / (sd * sd) };
  }
  // Each judgement may be a slip once in fifty: one odd word must not break the fit.
  const slip = 0.02;
  const [a, b] = [(evidence.low - y) / sd, (evidence.high - y) / sd];
  const share = between(a, b);
  const p = slip / 3 + (1 - slip) * share;
  const slope = (-(1 - slip) * (normalDensity(a) - normalDensity(b))) / (sd * p);
  return { value: -Math.log(p), slope, curvature: Math.max(slope * slope, 1e-3 / (sd * sd)) };
}

function between(a: number, b: number): number {
  return Math.max(0, Math.exp(logNormalCdf(b)) - Math.exp(logNormalCdf(a)));
}
