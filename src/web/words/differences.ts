/**
 * What a colour difference (CIEDE2000) looks like side by side. Half of all observers see 0.8 and half put up with 1.8
 * (Paravina et al., J. Esthet. Restor. Dent. 27, 2015; taken up by ISO/TR 28642:2016); 3.6 and 5.4 are two and three
 * times that (Paravina et al., J. Esthet. Restor. Dent. 31, 2019). Judged on tooth-coloured samples; values from memory.
 */
const steps = [
  { below: 0.8, words: 'not seen', longer: 'Few people would see a difference, even side by side.' },
  {
    below: 1.8,
    words: 'hardly seen',
    longer: 'Seen side by side by a good eye; most people put up with it.',
  },
  { below: 3.6, words: 'slightly different', longer: 'Seen side by side by nearly everyone.' },
  { below: 5.4, words: 'clearly different', longer: 'Seen without a close look.' },
  { below: Number.POSITIVE_INFINITY, words: 'another colour', longer: 'That is a different colour.' },
] as const;

const stepOf = (deltaE00: number) => steps.find((step) => deltaE00 < step.below) ?? steps[4];

/** 'hardly seen' */
export const differenceWords = (deltaE00: number): string => stepOf(deltaE00).words;
/** A sentence. */
export const differenceSentence = (deltaE00: number): string => stepOf(deltaE00).longer;

export const differenceBasis =
  'Differences are CIEDE2000 (ISO/CIE 11664-6). Half of all observers see 0.8 side by side, and half put up with 1.8; 3.6 and 5.4 are two and three times that. The limits come from studies on tooth-coloured samples (Paravina and others, 2015 and 2019; ISO/TR 28642): for mugs and shirts they are a fair guide, not a law.';

/** Lab in figures: 'L* 52, a* −3, b* 12'. */
export const labText = (lab: readonly [number, number, number], decimals = 0): string =>
  (['L*', 'a*', 'b*'] as const).map((name, i) => `${name}\u00a0${signed(lab[i] ?? 0, decimals)}`).join(', ');

/** A figure with a true minus and no minus nought. */
export function signed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return (Number(text) === 0 ? (0).toFixed(decimals) : text).replace('-', '\u2212');
}
