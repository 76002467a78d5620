import type { Triple, Triple3 } from '#craft/colour';
import type { ColourModel } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import { monotoneCubic } from './monotone-cubic.js';
import { type NeutralAxis, neutralAxis } from './neutral-axis.js';
import { expectedDifference, plainBase, plainBlackY, plainGroundL } from './plain-base.js';
import type { EyeAnswers, EyeCurve, EyeModelData } from './types.js';

/** An 18 % grey card: L* = 116 · 0.18^(1/3) − 16. */
const cardL = 49.5;
/**
 * How much lighter than black, darker than white, the first step is that can be told from it side by side: 1 CIEDE2000,
 * which at both ends of lightness is 1.75 L* (its S_L, ISO/CIE 11664-6), and half a step of the sheet.
 */
const toldFromBlackL = 2;
const toldFromWhiteL = 2;
/** Nodes of the curves along lightness. */
const nodes = 24;
/** Over plain sRGB a printer's strong colours are anybody's guess; its greys are known to about a step of the sheet. */
const plain = { neutralSd: [3, 2.5, 2.5], colourSd: [7, 12, 12] } as const;
/** Over a path that is known. */
const overPath = { neutralSd: [2, 1.5, 1.5], colourSd: [2.5, 3, 3] } as const;
/** A pick so far from the base's own neutral may lie at the sheet's edge: the truth may lie beyond. */
const farPick = 7;
/** From here on a colour counts as strong. */
const strongChroma = 40;

/**
 * Grade E: tone and balance curves from a grey sheet's picks, over a known path or over plain sRGB. Neutral means beside
 * the bare ground. Along the base's own lightness, what was picked says which device values are grey, and the tone steps
 * say how light they are; a monotone cubic for each channel leads from device values to those of the base.
 * @throws Problem `chart.unusable` for picks that cannot all be
 */
export function eyeModel(
  answers: EyeAnswers,
  base?: ColourModel,
): { model: ColourModel; data: EyeModelData; remarks: string[] } {
  const { rows, fromBlack, fromWhite, likeCard } = answers;
  const known = base ?? plainBase(plainBlackY, plainGroundL);
  const axis = neutralAxis(known);
  const lightness = (rgb: Triple): number => axis.relativeLab(unit(rgb))[0];
  const all = [...rows.map(({ chosen }) => chosen.deviceRgb), fromBlack, fromWhite, likeCard];
  const areBytes = all.every((rgb) => rgb.every((v) => Number.isFinite(v) && v >= 0 && v <= 255));
  if (rows.length < 2 || !areBytes) throw impossible('Fewer than two rows have a pick.');
  const tone = toneOf(axis, lightness(fromBlack), lightness(likeCard), lightness(fromWhite));
  const remarks: string[] = [];
  const picks = rows
    .map(({ chosen }, i) => {
      const rgb = unit(chosen.deviceRgb);
      const [l, a, b] = axis.relativeLab(rgb);
      if (Math.hypot(a, b) > farPick) {
        remarks.push(
          `The most neutral of row ${i + 1} lies at the edge of its row: print a second grey sheet through this path, and pick again.`,
        );
      }
      const grey = axis.deviceOf(l);
      return { l, shift: rgb.map((v, k) => v - grey[k]!) as Triple3 };
    })
    .filter(({ l }) => l > axis.blackL + 1 && l < 99)
    .sort((a, b) => a.l - b.l)
    .filter(({ l }, i, sorted) => i === 0 || l > sorted[i - 1]!.l + 1);
  if (picks.length < 2) throw impossible('The picks of the rows are all of one lightness.');
  const curves = [0, 1, 2].map((k) => curveOf(k, axis, tone, picks)) as unknown as EyeModelData['curves'];
  const data: EyeModelData = {
    format: 'dyewright-eye-model',
    version: 1,
    curves,
    blackY: base ? 0 : plainBlackY,
    groundL: base ? null : plainGroundL,
    ...(base ? overPath : plain),
  };
  return { model: makeEyeModel(data, base), data, remarks: remarks.slice(0, 2) };
}

/**
 * The same model again from its data; with the base it was made over.
 * @throws Problem `chart.unusable` for data that is not whole, or whose base is missing
 */
export function makeEyeModel(data: EyeModelData, base?: ColourModel): ColourModel {
  if (!isEyeModelData(data)) throw damaged('The kept model of the picks is damaged or of another kind.');
  const under = data.groundL === null ? base : plainBase(data.blackY, data.groundL);
  if (under === undefined) throw damaged('The path that the picks were made over is missing.');
  const curves = data.curves.map(({ device, base: to }) => monotoneCubic(device, to));
  const through = (rgb: Float64Array): Float64Array =>
    rgb.map((v, i) => Math.min(1, Math.max(0, curves[i % 3]!(Math.min(1, Math.max(0, v))))));
  return {
    predictLab: (rgb) => under.predictLab(through(rgb)),
    predict(rgb) {
      const flat = through(Float64Array.from(rgb.flat()));
      const asked = rgb.map((_, i): Triple => [flat[3 * i]!, flat[3 * i + 1]!, flat[3 * i + 2]!]);
      return under.predict(asked).map(({ lab, sdLab }) => {
        const strong = Math.min(1, Math.hypot(lab[1], lab[2]) / strongChroma);
        const sd = sdLab.map((v, j) =>
          Math.hypot(v, data.neutralSd[j]! + strong * (data.colourSd[j]! - data.neutralSd[j]!)),
        ) as Triple3;
        return { lab, sdLab: sd, expectedDeltaE00: expectedDifference(lab, sd) };
      });
    },
  };
}

/** From the base's lightness to what was seen, beside white. */
function toneOf(axis: NeutralAxis, black: number, card: number, white: number): (l: number) => number {
  const { blackL, whiteY } = axis;
  const wantedCard = 116 * Math.cbrt(((cardL + 16) / 116) ** 3 / whiteY) - 16;
  // A path's own darkest and lightest steps may be no darker or lighter than black and white themselves.
  const points = [
    [blackL, blackL],
    [Math.max(black, blackL + 0.2), blackL + toldFromBlackL],
    [card, wantedCard],
    [Math.min(white, 99.8), 100 - toldFromWhiteL],
    [100, 100],
  ] as const;
  if (points.some(([x, y], i) => i > 0 && (x <= points[i - 1]![0] || y <= points[i - 1]![1]))) {
    throw impossible('The steps picked for black, grey card and white are not in order of lightness.');
  }
  return monotoneCubic(
    points.map(([x]) => x),
    points.map(([, y]) => y),
  );
}

function curveOf(
  channel: number,
  axis: NeutralAxis,
  tone: (l: number) => number,
  picks: readonly { readonly l: number; readonly shift: Triple3 }[],
): EyeCurve {
  const shift = monotoneCubic(
    [axis.blackL, ...picks.map(({ l }) => l), 100],
    [0, ...picks.map((pick) => pick.shift[channel]!), 0],
  );
  const device = [0];
  const to = [0];
  for (let i = 1; i < nodes; i += 1) {
    const l = axis.blackL + ((100 - axis.blackL) * i) / nodes;
    const from = axis.deviceOf(l)[channel]! + shift(l);
    const value = axis.deviceOf(tone(l))[channel]!;
    // Where picks and steps would have a curve turn back it waits for them.
    if (from > device.at(-1)! + 2e-3 && value > to.at(-1)! && from < 0.998 && value < 1) {
      device.push(from);
      to.push(value);
    }
  }
  device.push(1);
  to.push(1);
  return { device, base: to };
}

const unit = (rgb: Triple): Triple3 => [rgb[0] / 255, rgb[1] / 255, rgb[2] / 255];

function isEyeModelData(value: unknown): value is EyeModelData {
  if (typeof value !== 'object' || value === null) return false;
  const { format, version, curves, blackY, groundL, neutralSd, colourSd } = value as Partial<EyeModelData>;
  const isTriple = (one: unknown): boolean =>
    Array.isArray(one) && one.length === 3 && one.every((v) => Number.isFinite(v) && v >= 0);
  return (
    format === 'dyewright-eye-model' &&
    version === 1 &&
    Array.isArray(curves) &&
    curves.length === 3 &&
    curves.every(isCurve) &&
    Number.isFinite(blackY) &&
    blackY! >= 0 &&
    blackY! < 1 &&
    (groundL === null || (Number.isFinite(groundL) && groundL! > 20 && groundL! <= 100)) &&
    isTriple(neutralSd) &&
    isTriple(colourSd)
  );
}

function isCurve(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { device, base } = value as Partial<EyeCurve>;
  const rises = (list: unknown): boolean =>
    Array.isArray(list) &&
    list.length >= 2 &&
    list.every((v, i) => Number.isFinite(v) && v >= 0 && v <= 1 && (i === 0 || v > list[i - 1]));
  return rises(device) && rises(base) && device!.length === base!.length;
}

const impossible = (message: string): Problem =>
  new Problem('chart.unusable', message, {
    remedy: 'Look at the grey sheet again in daylight beside the grey card, and pick once more.',
  });

const damaged = (message: string): Problem =>
  new Problem('chart.unusable', message, { remedy: 'Pick again from the grey sheet.' });
