import { type Curve, driftCurve, riseCurve, spreadCurve } from './curves.js';
import type { Evidence } from './evidence.js';
import { type Coupon, type Measured, type MeasuredLab, type Solid, solids } from './types.js';

/** One value followed over the coupons. Its id is part of the answer. */
export type ResponseId =
  | `density.${Solid}`
  | `chroma.${Exclude<Solid, 'black'>}`
  | 'blackHue'
  | 'greyHue'
  | 'edgeUm'
  | 'edgeByEye'
  | 'smallText';

export interface Response {
  readonly id: ResponseId;
  readonly curve: Curve;
  readonly evidence: readonly Evidence[];
  /** Scatter between coupons that is tried, in the value's unit. */
  readonly scatters: readonly number[];
}

/**
 * Black goes from green (too short or too cool) over neutral to brown (too long or too hot): common practice. That is
 * mostly along a*; brown is also yellower. The direction's hue angle, degrees, is a choice of ours.
 */
export const brownHueDegrees = 20;
const [ea, eb] = [Math.cos((brownHueDegrees * Math.PI) / 180), Math.sin((brownHueDegrees * Math.PI) / 180)];

/** How far towards brown (+) or green (−), CIELAB units. */
export const towardsBrown = (lab: ArrayLike<number>): number => lab[1]! * ea + lab[2]! * eb;
/** Across that: yellow-green (+), purple (−). A cast that pressing hardly changes. */
export const acrossBrown = (lab: ArrayLike<number>): number => lab[2]! * ea - lab[1]! * eb;

/** Eyes see a black as tinted from about this far; they differ by about `sd`. Our choice, from no published source. */
export const blackByEye = { tintedFrom: 2.5, sd: 1.5 } as const;

/** Stands for endless, so that evidence can be kept as JSON. */
const farOff = 1e6;

/** With less than this, what is measured is not followed. */
const fewestValues = 3;

export function responsesOf(coupons: readonly Coupon[]): Response[] {
  const out: Response[] = [];
  for (const solid of solids) {
    const density = readings(coupons, (c) => c.values?.density?.[solid]);
    if (density.length >= fewestValues) out.push(rise(`density.${solid}`, density));
    if (solid === 'black') continue;
    const chroma = readings(coupons, (c) => c.values?.chroma?.[solid]);
    if (chroma.length >= fewestValues) out.push(rise(`chroma.${solid}`, chroma));
  }
  const black: Evidence[] = [...readings(coupons, (c) => hueOf(c.values?.blackLab)), ...blackSeen(coupons)];
  if (black.length >= fewestValues)
    out.push({
      id: 'blackHue',
      curve: driftCurve(4),
      evidence: black,
      scatters: [0.02, 0.15, 0.3, 0.6, 1.2],
    });
  const grey = readings(coupons, (c) => hueOf(c.values?.greyLab));
  if (grey.length >= fewestValues)
    out.push({ id: 'greyHue', curve: driftCurve(4), evidence: grey, scatters: [0.02, 0.15, 0.3, 0.6, 1.2] });
  const edges = readings(coupons, (c) => c.values?.edgeUm);
  if (edges.length >= fewestValues) {
    const narrowest = Math.min(...edges.map(({ value }) => value));
    const scatters = [0.001, 0.01, 0.02, 0.04, 0.08].map((share) => share * narrowest);
    out.push({ id: 'edgeUm', curve: spreadCurve(narrowest), evidence: edges, scatters });
  } else {
    const seen = edgesSeen(coupons);
    // On a scale of its own: 0 is where edges turn soft, 1 is one e-fold of dose, or so.
    if (seen.length >= fewestValues)
      out.push({ id: 'edgeByEye', curve: driftCurve(1, -0.5), evidence: seen, scatters: [0.02] });
  }
  const text = readings(coupons, (c) => c.values?.smallText);
  if (text.length >= fewestValues)
    out.push({ id: 'smallText', curve: driftCurve(-0.3, 0.7), evidence: text, scatters: [0.01, 0.05, 0.1] });
  return out;
}

type Reading = Extract<Evidence, { kind: 'reading' }>;

function readings(coupons: readonly Coupon[], of: (coupon: Coupon) => Measured | undefined): Reading[] {
  return coupons.flatMap((c, coupon): Reading[] => {
    const measured = of(c);
    return measured === undefined ? [] : [{ kind: 'reading', coupon, ...measured }];
  });
}

function rise(id: ResponseId, evidence: readonly Reading[]): Response {
  const largest = Math.max(...evidence.map(({ value }) => value));
  const scatters = [0.0005, 0.005, 0.01, 0.02, 0.04].map((share) => share * largest);
  return { id, curve: riseCurve(largest), evidence, scatters };
}

export function hueOf(measured: MeasuredLab | undefined): Measured | undefined {
  if (measured === undefined) return undefined;
  const { lab, sdLab } = measured;
  return { value: towardsBrown(lab), sd: Math.hypot(ea * sdLab[1], eb * sdLab[2]) };
}

/** A judgement by eye counts only where the coupon's black was not measured. */
function blackSeen(coupons: readonly Coupon[]): Evidence[] {
  const { tintedFrom, sd } = blackByEye;
  const bounds = {
    green: [-farOff, -tintedFrom],
    neutral: [-tintedFrom, tintedFrom],
    brown: [tintedFrom, farOff],
  } as const;
  return coupons.flatMap(({ values, byEye }, coupon): Evidence[] => {
    if (byEye?.black === undefined || values?.blackLab !== undefined) return [];
    const [low, high] = bounds[byEye.black];
    return [{ kind: 'between', coupon, low, high, sd }];
  });
}

function edgesSeen(coupons: readonly Coupon[]): Evidence[] {
  return coupons.flatMap(({ byEye }, coupon): Evidence[] =>
    byEye?.edges === undefined
      ? []
      : [
          {
            kind: 'between',
            coupon,
            low: byEye.edges === 'soft' ? 0 : -farOff,
            high: byEye.edges === 'soft' ? farOff : 0,
            sd: 0.3,
          },
        ],
  );
}
