import { gasConstant } from '#craft/heat';
import { checkStep } from './check-coupons.js';
import { curveAt } from './curves.js';
import { asideOf, indexOf, type LadderFit, lawOf } from './fit-ladder.js';
import { activationPrior, logDose, platenForLogDose, secondsForLogDose } from './kinetics.js';
import { worldWindows } from './press-window.js';
import { estimateOf } from './quantile.js';
import { acrossBrown, hueOf, towardsBrown } from './responses.js';
import type { Estimate, MeasuredLab, PressStep } from './types.js';
import { usualRules, type WindowPlace, type WindowRules } from './window.js';

export interface BlackVerdict {
  readonly verdict: 'under' | 'right' | 'over';
  /** Towards brown (+) or green (−), CIELAB units. */
  readonly hue: number;
  /** To add (+) or take away (−), at the same temperature; or in °C at the same time. One or the other, not both. */
  readonly seconds: Estimate;
  readonly kelvin: Estimate;
  readonly restsOn: 'own ladder' | 'common practice';
  readonly words: string;
  readonly remarks: readonly string[];
}

/**
 * Under- or over-pressed, from one black patch. With a ladder of this shop: the dose at which its blacks had this hue,
 * against the middle of its window. Without: only the direction is common practice; the size is a rule of thumb.
 */
export function blackVerdict(
  black: MeasuredLab,
  step: PressStep,
  own?: { readonly fit: LadderFit; readonly place: WindowPlace; readonly rules?: WindowRules },
): BlackVerdict {
  checkStep(step, 'The recipe');
  const { value, sd } = hueOf(black)!;
  const remarks: string[] = [];
  const across = acrossBrown(black.lab);
  if (Math.abs(across) > 4)
    remarks.push(
      `This black is also ${across > 0 ? 'yellowish' : 'bluish'} in a way that pressing hardly changes: a colour path mends that.`,
    );
  const isPale = black.lab[0] > 40;
  if (isPale)
    remarks.push(
      'This is rather a grey than a black: if it was meant to be black, the dye has hardly arrived.',
    );
  if (own && indexOf(own.fit, 'blackHue') >= 0) return fromLadder(value, sd, step, own, remarks);
  return fromPractice(towardsBrown(black.lab), isPale, step, remarks);
}

function fromLadder(
  hue: number,
  sd: number,
  step: PressStep,
  { fit, place, rules = usualRules }: { fit: LadderFit; place: WindowPlace; rules?: WindowRules },
  remarks: string[],
): BlackVerdict {
  const at = indexOf(fit, 'blackHue');
  const { curve } = fit.responses[at]!;
  const aside = asideOf(step, fit);
  const worlds = worldWindows(fit, place, rules);
  const seconds: number[] = [];
  const kelvin: number[] = [];
  let [beyond, under, over] = [0, 0, 0];
  fit.draws.forEach((draw, i) => {
    const law = lawOf(fit, draw);
    const doseAt = (s: number): number => logDose({ ...place, dwellSeconds: s }, law);
    const window = worlds[i]!.window;
    const [from, to] = [doseAt(window.fromSeconds), doseAt(window.toSeconds)];
    const middle = (from + to) / 2;
    // Evenly spread quantiles of the reading's own error over the worlds.
    const said = hue + sd * spreadOf(i, fit.draws.length);
    const z = doseOfHue((x) => curveAt(curve, draw.theta[at]!, x, aside), said);
    if (Math.abs(z) > furthest - 0.01) beyond += 1;
    const seen = z + draw.middleLogDose;
    if (seen < Math.min(from, middle)) under += 1;
    if (seen > Math.max(to, middle)) over += 1;
    const wanted = logDose(step, law) + (middle - seen);
    seconds.push(secondsForLogDose(wanted, step, law) - step.dwellSeconds);
    const platenC = platenForLogDose(wanted, step, law);
    if (!Number.isNaN(platenC)) kelvin.push(platenC - step.platenC);
  });
  const half = fit.draws.length / 2;
  const verdict = under > half ? 'under' : over > half ? 'over' : 'right';
  if (beyond > half)
    remarks.push('The ladder has no black like this one: the figures reach beyond what was pressed.');
  if (!fit.activation.isFitted) remarks.push(fit.activation.basis);
  const [s, k] = [estimateOf(seconds), estimateOf(kelvin)];
  return {
    verdict,
    hue,
    seconds: s,
    kelvin: k,
    restsOn: 'own ladder',
    words: words(verdict, s, k, 'From your own ladder'),
    remarks,
  };
}

const furthest = 2.5;

/** z at which a hue is reached, by a walk over the coupons' surroundings; held at their ends. */
function doseOfHue(hueAt: (z: number) => number, wanted: number): number {
  const count = 200;
  const zAt = (i: number): number => -furthest + (2 * furthest * i) / count;
  // A polynomial may turn far from the coupons: only the rising stretch round the middle counts.
  let [low, high] = [count / 2, count / 2];
  while (low > 0 && hueAt(zAt(low - 1)) < hueAt(zAt(low))) low -= 1;
  while (high < count && hueAt(zAt(high + 1)) > hueAt(zAt(high))) high += 1;
  if (wanted <= hueAt(zAt(low))) return zAt(low);
  for (let i = low + 1; i <= high; i += 1) {
    const [a, b] = [hueAt(zAt(i - 1)), hueAt(zAt(i))];
    if (b >= wanted) return zAt(i - 1) + ((wanted - a) / (b - a)) * (zAt(i) - zAt(i - 1));
  }
  return zAt(high);
}

/** The i-th of n standard normal values, in an order that has nothing to do with i (golden ratio steps; logistic ends). */
function spreadOf(i: number, n: number): number {
  const u = ((i + 0.5) * 0.6180339887498949) % 1;
  const p = Math.min(1 - 0.5 / n, Math.max(0.5 / n, u));
  // Tukey's lambda form of the normal quantile (Joiner & Rosenblatt, JASA 66, 1971), within 0.02.
  return 4.91 * (p ** 0.14 - (1 - p) ** 0.14);
}

/** Below this a black counts as neutral; above twice it, as plainly tinted. Rules of thumb of ours. */
const slightFrom = 2;
const plainFrom = 5;

function fromPractice(hue: number, isPale: boolean, step: PressStep, remarks: string[]): BlackVerdict {
  const size = Math.abs(hue);
  // A grey where black was meant has too little dye, whatever its hue.
  const verdict = isPale ? 'under' : size < slightFrom ? 'right' : hue < 0 ? 'under' : 'over';
  const direction = verdict === 'under' ? 1 : -1;
  const share = verdict === 'right' ? 0 : !isPale && size < plainFrom ? 0.1 : 0.2;
  const kelvinOf = (part: number, activationKJ: number): number => {
    const inverse =
      1 / (step.platenC + 273.15) - (gasConstant * Math.log(1 + direction * part)) / (activationKJ * 1000);
    return 1 / inverse - 273.15 - step.platenC;
  };
  const { medianKJPerMol: usual, sdLog } = activationPrior;
  const three = (of: (part: number, kJ: number) => number): Estimate => {
    const all = [
      of(share, usual),
      of(share / 2, usual * Math.exp(1.64 * sdLog)),
      of(share * 1.5, usual * Math.exp(-1.64 * sdLog)),
    ].sort((a, b) => a - b);
    return { value: of(share, usual), low: all[0]!, high: all[2]! };
  };
  const seconds = share === 0 ? nothing : three((part) => direction * part * step.dwellSeconds);
  const kelvin = share === 0 ? nothing : three(kelvinOf);
  remarks.push(
    'Green means too short or too cool, brown too long or too hot: common practice. How much is a rule of thumb; a ladder of your own tells it.',
  );
  return {
    verdict,
    hue,
    seconds,
    kelvin,
    restsOn: 'common practice',
    words: words(verdict, seconds, kelvin, 'By common practice'),
    remarks,
  };
}

const nothing: Estimate = { value: 0, low: 0, high: 0 };

function words(verdict: BlackVerdict['verdict'], seconds: Estimate, kelvin: Estimate, from: string): string {
  if (verdict === 'right') return `${from}: this black is neutral enough; leave time and temperature.`;
  const round = (v: number): number => Math.max(1, Math.round(Math.abs(v)));
  const change = `about ${round(seconds.value)} s (or ${round(kelvin.value)} °C, not both)`;
  return verdict === 'under'
    ? `${from}: pressed too little. Add ${change}, within what the maker allows.`
    : `${from}: pressed too much. Take away ${change}.`;
}
