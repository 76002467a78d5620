import type { FeedReading, HealthReading, InkHealth } from './types.js';

export type HealthActKind =
  | 'clean-head'
  | 'idle-routine'
  | 'align-head'
  | 'one-way-printing'
  | 'finer-quality'
  | 'adjust-feed'
  | 'scan-again'
  | 'nothing';

/** One thing to do, with the reason; the milder and cheaper first. */
export interface HealthAct {
  readonly kind: HealthActKind;
  readonly sentence: string;
  /** Where the advice is from: all of it common practice of the trade, none of it published. */
  readonly isCommonPractice: boolean;
}

export interface HealthVerdict {
  /** well: nothing found, everything told · ailing: something found · unsure: nothing found, but not all could be told */
  readonly state: 'well' | 'ailing' | 'unsure';
  /** One sentence. */
  readonly headline: string;
  /** What was found, the gravest first. */
  readonly findings: readonly string[];
  /** What could not be told, and why. */
  readonly untold: readonly string[];
  readonly acts: readonly HealthAct[];
}

/** Offsets below are not seen at arm's length; above, fine lines double (common practice). */
const seenOffsetUm = 40;
/** Upright edges softer than level ones by less say nothing: scanners differ so much between their two ways. */
const softerBy = 1.3;
const leastApartUm = 60;
/** Half-swings below are hardly seen in a tint (common practice: about 0.5 L* from trough to crest at 1 to 5 mm). */
const seenBandL = 0.3;
/** Over 200 mm a tenth of a percent is 0.2 mm (common practice: what a placed picture bears). */
const seenFeedPercent = 0.15;

/** The reading in words, and what follows from it. */
export function judgeHealth(reading: HealthReading, feed: FeedReading = reading.feed): HealthVerdict {
  const findings: string[] = [];
  const acts: HealthAct[] = [];
  const untold: string[] = [];
  const act = (kind: HealthActKind, sentence: string): void => {
    if (!acts.some((one) => one.kind === kind)) acts.push({ kind, sentence, isCommonPractice: true });
  };
  for (const one of reading.inks) ladderWords(one, findings, untold, act);
  const { twoWay } = reading;
  if (!twoWay.isMeasured) untold.push(`Passes to the left against passes to the right: ${twoWay.because}.`);
  else if (twoWay.heaps === 2 && twoWay.offsetUm - twoWay.uncertaintyUm > seenOffsetUm) {
    findings.push(
      `Passes to the left and to the right lie ${um(twoWay.offsetUm)} ± ${um(twoWay.uncertaintyUm)} apart${
        twoWay.pattern?.kind === 'bands' ? `, in bands ${twoWay.pattern.heightMm.toFixed(1)} mm high` : ''
      }.`,
    );
    act('align-head', 'Run the printer’s own head alignment, with the paper that is used for work.');
    act(
      'one-way-printing',
      'Until that is done, turn off printing in both directions (often called high speed).',
    );
  }
  softerAcross(reading, findings, act);
  for (const one of reading.inks) bandWords(one, findings, untold, act);
  if (Math.abs(feed.errorPercent) - feed.uncertaintyPercent > seenFeedPercent) {
    findings.push(
      `Lengths along the feed are ${Math.abs(feed.errorPercent).toFixed(2)} ± ${feed.uncertaintyPercent.toFixed(2)} % too ${
        feed.errorPercent > 0 ? 'long' : 'short'
      } against those across.`,
    );
    if (feed.from === 'one-scan') {
      act(
        'scan-again',
        'Scan the sheet again turned by a quarter before changing anything: it may be the scanner.',
      );
    }
    act('adjust-feed', 'Set the paper feed in the printer’s menu or driver, where it has such a setting.');
  } else if (feed.from === 'one-scan') {
    untold.push('Feed errors below about 0.3 %: one scan cannot part them from the scanner’s own travel.');
  }
  for (const { ink, sharpness, solidDensity } of reading.inks) {
    if (!sharpness.isMeasured) untold.push(`Sharpness of ${ink}: ${sharpness.because}.`);
    if (!solidDensity.isMeasured) untold.push(`Solid ${ink}: ${solidDensity.because}.`);
  }
  const state = findings.length > 0 ? 'ailing' : untold.length > 0 ? 'unsure' : 'well';
  if (acts.length === 0) act('nothing', 'Keep this sheet to compare the next one with.');
  return { state, headline: headlineOf(state, findings.length), findings, untold, acts };
}

type Act = (kind: HealthActKind, sentence: string) => void;

function ladderWords({ ink, ladder }: InkHealth, findings: string[], untold: string[], act: Act): void {
  if (!ladder.isMeasured) {
    untold.push(`Nozzles of ${ink}: ${ladder.because}.`);
    return;
  }
  const { missing, weak, deflected } = ladder;
  if (missing.length > 0) {
    findings.push(`${named(ink)}: ${steps(missing)} of its ladder missing.`);
    act(
      'clean-head',
      'Run one head cleaning, print the health sheet again, and let it rest some hours if that did not help.',
    );
    act('idle-routine', 'Print a small page with all inks every day or two, so that nozzles do not dry.');
  }
  if (weak.length > 0) {
    findings.push(`${named(ink)}: ${steps(weak)} of its ladder weak.`);
    act('clean-head', 'Run one head cleaning and print the health sheet again.');
    act('finer-quality', 'A finer quality prints each row with more nozzles and hides a weak one.');
  }
  if (deflected.length > 0) {
    const far = Math.max(...deflected.map(({ offUm }) => Math.abs(offUm)));
    findings.push(`${named(ink)}: ${steps(deflected)} off its place, at most ${um(far)}.`);
    act('clean-head', 'Run one head cleaning: dried ink at a nozzle’s rim pulls its drops aside.');
  }
}

function bandWords({ ink, banding }: InkHealth, findings: string[], untold: string[], act: Act): void {
  if (!banding.isMeasured) {
    untold.push(`Bands in ${ink}: ${banding.because}.`);
    return;
  }
  const { periodMm, amplitudeL, isReaders, matchesPass } = banding;
  if (periodMm === null || amplitudeL < seenBandL) return;
  if (isReaders) {
    untold.push(`Bands in ${ink}: the bare paper shows the same ones, so they are the scanner’s.`);
    return;
  }
  const pass =
    matchesPass === 'pass' ? ', the height of a pass' : matchesPass === 'two-passes' ? ', twice a pass' : '';
  findings.push(
    `${named(ink)}: bands every ${periodMm.toFixed(2)} mm${pass}, ± ${amplitudeL.toFixed(1)} L*.`,
  );
  if (matchesPass !== null)
    act('adjust-feed', 'Bands as high as a pass: set the paper feed, if the printer lets you.');
  act('finer-quality', 'Choose a finer quality: more passes make bands fainter.');
}

/**
 * Rows that are filled by passes of both directions show one heap; their offset b then softens upright edges alone, by
 * half of b to either side: widths 10–90 % of Gaussians add as squares, 2.563 σ each, so b = 2·√(w₁² − w₂²)/2.563.
 */
function softerAcross({ inks, twoWay }: HealthReading, findings: string[], act: Act): void {
  if (twoWay.isMeasured && twoWay.heaps === 2) return;
  const black = inks.find(({ ink }) => ink === 'black')?.sharpness;
  if (!black?.isMeasured || black.acrossUm === null || black.alongUm === null) return;
  const { acrossUm, alongUm } = black;
  const apartUm = acrossUm > alongUm ? (2 * Math.sqrt(acrossUm ** 2 - alongUm ** 2)) / 2.563 : 0;
  if (acrossUm < softerBy * alongUm || apartUm < leastApartUm) return;
  findings.push(
    `Upright edges are softer than level ones, as passes to the left and to the right about ${um(apartUm)} apart would make them.`,
  );
  act(
    'scan-again',
    'Scan the sheet again turned by a quarter: if level edges are softer then, it is the scanner.',
  );
  act('align-head', 'Run the printer’s own head alignment, with the paper that is used for work.');
}

const headlineOf = (state: HealthVerdict['state'], found: number): string =>
  state === 'well'
    ? 'The printer is well.'
    : state === 'unsure'
      ? 'Nothing wrong was found, but not everything could be told.'
      : `${found === 1 ? 'One thing is' : `${found} things are`} wrong with this print.`;
const named = (ink: string): string => ink[0]!.toUpperCase() + ink.slice(1);
const um = (value: number): string => `${(value / 1000).toFixed(2)} mm`;
const steps = (list: readonly { step: number }[]): string => {
  const shown = list.slice(0, 6).map(({ step }) => step);
  return list.length === 1
    ? `step ${shown[0]}`
    : `${list.length} steps (${shown.join(', ')}${list.length > 6 ? ' …' : ''})`;
};
