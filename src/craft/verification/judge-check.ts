import type { CheckSummary } from './summarise-check.js';

export type CheckVerdict = 'good' | 'look' | 'stale';

export interface CheckEvidence {
  readonly summary: CheckSummary;
  /** What the path itself expected of the colours within reach, its reader's error with it; mean ΔE00. */
  readonly expectedMean: number;
  /** How far this reading may be off by itself, mean ΔE00. */
  readonly readingMean: number;
  /** Means of earlier checks, newest first, each read as well as this one. */
  readonly earlier: readonly { readonly mean: number; readonly day: string }[];
}

export interface Judgement {
  readonly verdict: CheckVerdict;
  readonly sentences: string[];
}

/** What one print and press of the same file differs from the next by, mean ΔE00: common practice. */
const printToPrint = 0.7;
/** Beyond what was to be expected by so much: worth a look; so much more: no accident. Ours, no source. */
const lookFactor = 1.4;
const staleFactor = 2.2;
/** Below this nobody would change anything. */
const leastStale = 2;
const riseFactor = 1.5;
const leastRise = 0.8;
/** ISO 12647-7 for contract proofs, mean and 95 %: from memory. */
const proofMean = 2.5;
const proofP95 = 5;

/** A verdict on one check, in plain sentences; the first says what matters. */
export function judgeCheck(evidence: CheckEvidence): Judgement {
  const { overall, neutrals, limited } = evidence.summary;
  const allowed = Math.hypot(evidence.expectedMean, evidence.readingMean, printToPrint);
  const before = median(evidence.earlier.map((one) => one.mean));
  const risen = before !== null && overall.mean > riseFactor * before && overall.mean - before > leastRise;
  const isStale = overall.mean > staleFactor * allowed && overall.mean > leastStale;
  const greysOff = neutrals !== null && neutrals.mean > lookFactor * Math.max(allowed, overall.mean);
  const verdict: CheckVerdict = isStale
    ? 'stale'
    : overall.mean > lookFactor * allowed || risen || greysOff
      ? 'look'
      : 'good';
  return {
    verdict,
    sentences: [
      headline(verdict, overall.mean),
      `95 % of the ${overall.count} colours within reach lie within ${tenth(overall.p95)} ΔE00, the worst at ${tenth(overall.max)}.`,
      `The path expected ${tenth(evidence.expectedMean)} on average; with what the reading may be off by and what changes from print to print, up to ${tenth(allowed)} is in order.`,
      ...(neutrals === null
        ? []
        : [
            `Greys, ${neutrals.count} of them: ${tenth(neutrals.mean)} on average, at most ${tenth(neutrals.max)}${
              greysOff ? '. They are further off than the colours: look at them beside a grey card' : ''
            }.`,
          ]),
      ...(limited === null
        ? []
        : [
            `${limited.count} colours beyond what the path reaches were set apart: ${tenth(limited.mean)} from the nearest it makes.`,
          ]),
      ...(before === null
        ? []
        : [
            `${evidence.earlier.length === 1 ? 'The check before' : 'Checks before, in the middle'}: ${tenth(before)}${risen ? '; it has risen plainly' : ''} (last on ${evidence.earlier[0]!.day}).`,
          ]),
      comparedWithProofs(overall.mean, overall.p95),
    ],
  };
}

function headline(verdict: CheckVerdict, mean: number): string {
  const off = `colours come out ${tenth(mean)} ΔE00 from what was asked, on average`;
  if (verdict === 'good') return `Good: ${off}.`;
  if (verdict === 'look')
    return `Worth a look: ${off}. Check the press settings and the print, and check once more.`;
  return `Stale: ${off}, far more than the path expected. Print a new test sheet, or find what has changed.`;
}

function comparedWithProofs(mean: number, p95: number): string {
  const within = mean <= proofMean && p95 <= proofP95;
  return `Only to compare: contract proofs on paper (ISO 12647-7) are held to ${proofMean} ΔE00 on average, 95 % within ${proofP95}. These colours are ${within ? 'within' : 'beyond'} that; a pressed blank is no such proof.`;
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

const tenth = (v: number): string => v.toFixed(1);
