import type { Triple } from '#craft/colour';
import type { Rgb8 } from '#craft/sheet';
import type { GreyRow, ToneRow } from './types.js';

type DeviceOf = (lab: Triple) => Triple;

/** L* of the rows of near-neutrals, beside white; A is the darkest. */
const levels = [25, 40, 55, 70, 85] as const;
/**
 * Lines of a block and how many patches lie in each: one in the middle, six round it, twelve round these. To the right
 * a* rises, upwards b*.
 */
export const blockLines = [3, 4, 5, 4, 3] as const;

/**
 * How far the two rings lie from the middle, CIELAB units. Side by side most people tell near-neutrals 2 to 3 apart
 * (from memory; a pick is then off by half a step). A plain driver's greys may be 12 off (common practice), which two
 * such rings do not reach: its rings lie wider, and a second sheet through the path made from the first settles it.
 */
const greyRings = { plain: [4, 10], path: [3, 6] } as const;

/** Wide rings where greys are the driver's own (equal red, green, blue), narrow ones where something has balanced them. */
export function ringsFor(deviceOf: DeviceOf): readonly [number, number] {
  const isPlain = levels.every((lightness) => {
    const rgb = deviceOf([lightness, 0, 0]);
    return Math.max(...rgb) - Math.min(...rgb) < 1.5 / 255;
  });
  return isPlain ? greyRings.plain : greyRings.path;
}

/** Five rows of nineteen near-neutrals, line by line as they lie on the sheet. */
export function greyRows(deviceOf: DeviceOf, rings: readonly [number, number]): GreyRow[] {
  return levels.map((lightness, row) => {
    const letter = String.fromCharCode(65 + row);
    const candidates = hexagon(rings).map(({ aStep, bStep }, i) => ({
      label: `${letter}${i + 1}`,
      deviceRgb: asBytes(deviceOf([lightness, aStep, bStep])),
      aStep,
      bStep,
    }));
    return { level: mean(asBytes(deviceOf([lightness, 0, 0]))) / 255, candidates };
  });
}

/** The places of the block's patches: the direction as it lies on the sheet, the distance its ring's. */
function hexagon([inner, outer]: readonly [number, number]): { aStep: number; bStep: number }[] {
  const middle = (blockLines.length - 1) / 2;
  return blockLines.flatMap((count, line) =>
    Array.from({ length: count }, (_, i) => {
      const across = i - (count - 1) / 2;
      const up = (middle - line) * (Math.sqrt(3) / 2);
      const distance = Math.hypot(across, up);
      const stretch = distance < 0.5 ? 0 : (distance < 1.5 ? inner : outer) / distance;
      return { aStep: tenth(across * stretch), bStep: tenth(up * stretch) };
    }),
  );
}

/** Codes above black and below white, finer where a printer loses steps first (common practice). */
const aboveBlack = [4, 8, 12, 16, 21, 26, 32, 38, 45, 53, 62, 72] as const;
const belowWhite = [2, 4, 6, 8, 11, 14, 18, 22, 27, 33, 40, 48] as const;
/** L* round that of an 18 % grey card (49.5: 116 · 0.18^(1/3) − 16), further up, since plain prints come out dark. */
const aroundCard = [36, 39, 42, 45, 48, 51, 54, 57, 60, 63, 66, 70] as const;

export function toneRows(deviceOf: DeviceOf): ToneRow[] {
  const neutrals = Array.from({ length: 101 }, (_, lightness) => deviceOf([lightness, 0, 0]));
  const row = (question: ToneRow['question'], letter: string, colours: readonly Triple[]): ToneRow => ({
    question,
    steps: colours.map((rgb, i) => ({ label: `${letter}${i + 1}`, deviceRgb: asBytes(rgb) })),
  });
  return [
    row(
      'from-black',
      'F',
      aboveBlack.map((code) => neutralOfMean(neutrals, code / 255)),
    ),
    row(
      'from-white',
      'G',
      belowWhite.map((code) => neutralOfMean(neutrals, 1 - code / 255)),
    ),
    row(
      'like-card',
      'H',
      aroundCard.map((lightness) => deviceOf([lightness, 0, 0])),
    ),
  ];
}

/**
 * The device's neutral whose mean is so much: between the neutrals asked for, or between the darkest and raw black, or
 * the lightest and raw white, so that steps differ even where a path clips.
 */
function neutralOfMean(neutrals: readonly Triple[], wanted: number): Triple {
  const all: Triple[] = [[0, 0, 0], ...neutrals, [1, 1, 1]];
  const above = all.findIndex((rgb) => mean(rgb) >= wanted);
  const [low, high] = [all[above - 1] ?? all[0]!, all[above]!];
  const span = mean(high) - mean(low);
  const share = span > 1e-9 ? (wanted - mean(low)) / span : 1;
  return [0, 1, 2].map((c) => low[c]! + share * (high[c]! - low[c]!)) as unknown as Triple;
}

const asBytes = (rgb: Triple): Rgb8 =>
  rgb.map((v) => Math.round(255 * Math.min(1, Math.max(0, v)))) as unknown as Rgb8;
const mean = (rgb: Triple): number => (rgb[0] + rgb[1] + rgb[2]) / 3;
const tenth = (v: number): number => Math.round(10 * v) / 10 + 0;
