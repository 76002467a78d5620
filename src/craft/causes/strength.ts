import type { Finding } from './types.js';

/** Share of measured findings that say nothing (wrong place, wrong piece, glare): keeps any one from deciding alone. */
const misreadShare = 0.02;

/** How a person's "it is there" and "it is not" go wrong; from memory, to be replaced by this shop's own cases. */
const byEye = { missed: 0.12, imagined: 0.04 };

/** Normal 5 % point of a magnitude: P(|z| > 1.96) = 0.05, which is how `threshold` is defined. */
const fivePercent = 1.959964;

/** Densities of one observation: if the finding is away, and if it is there with a given median strength. */
export interface SoftEvidence {
  readonly away: number;
  there(typical: number | null): number;
}

/** Said by a person: "I see it" or "I looked and do not see it". */
export function seenByEye(seen: boolean): SoftEvidence {
  return seen
    ? { away: byEye.imagined, there: () => 1 - byEye.missed }
    : { away: 1 - byEye.imagined, there: () => byEye.missed };
}

/**
 * A measured strength x with standard deviation u. Faultless pieces scatter by threshold/1.96, the measurement by u;
 * x is a magnitude, so both densities are folded normals. Where the finding is there the true strength is log-normal
 * (median `typical`, σ `spread`) and x scatters about it likewise; the integral is a midpoint sum over ±4 σ.
 */
export function measuredStrength(finding: Finding, strength: number, sd: number): SoftEvidence {
  const scatter = Math.hypot((finding.threshold ?? 1) / fivePercent, sd);
  // Beyond three σ above the median a fault is simply "as strong as can be": a longer tail would say nothing more.
  const x = Math.min(Math.max(0, strength), (finding.typical ?? 1) * Math.exp(3 * finding.spread));
  const folded = (true_: number): number =>
    Math.exp(-0.5 * ((x - true_) / scatter) ** 2) + Math.exp(-0.5 * ((x + true_) / scatter) ** 2);
  const clean = folded(0);
  const kept = new Map<number, number>();
  const faulty = (typical: number): number => {
    const known = kept.get(typical);
    if (known !== undefined) return known;
    const steps = 64;
    let sum = 0;
    let weights = 0;
    for (let i = 0; i < steps; i += 1) {
      const z = -4 + (8 * (i + 0.5)) / steps;
      const weight = Math.exp(-0.5 * z * z);
      sum += weight * folded(typical * Math.exp(finding.spread * z));
      weights += weight;
    }
    kept.set(typical, sum / weights);
    return sum / weights;
  };
  const ordinary = faulty(finding.typical ?? 1);
  return {
    // Swapped with the other state in a small share of readings, so that odds stay between 1 : 49 and 49 : 1.
    away: (1 - misreadShare) * clean + misreadShare * ordinary,
    there: (typical) => (1 - misreadShare) * faulty(typical ?? finding.typical ?? 1) + misreadShare * clean,
  };
}
