import type { LadderCoupon } from '#contract';
import type { Triple, Triple3 } from '#craft/colour';
import type { CouponPatchReading, CouponReading, EdgeReading } from '#craft/couponreading';
import { type LinearRgb, luminance } from '#craft/patchreading';
import type { CouponValues, MeasuredLab } from '#craft/presswindow';
import type { ReadColour, ReaderMap } from '#craft/reader';
import type { CouponPatchName } from '#craft/testsheet';
import { hexBeside } from '#shop/readings';
import { densityOver, type MeasuredFigure, sdOfLight, sdOfLuminance } from './reader-noise.js';

/** One coupon as a picture shows it, in values; plain JSON. */
export interface CouponSeen {
  readonly values: NonNullable<LadderCoupon['values']>;
  /** Black, cyan, magenta, yellow, grey, bare ground. */
  readonly seenHex: readonly string[];
  readonly remarks: readonly string[];
}

/** The channel whose light a dye takes. */
const channelOf = { cyan: 0, magenta: 1, yellow: 2 } as const;
const inks = ['cyan', 'magenta', 'yellow'] as const;
const patchOrder: readonly CouponPatchName[] = ['black', 'cyan', 'magenta', 'yellow', 'grey'];
/** At least so many bare places make the mean of the ground. */
const groundPlaces = 20;

/**
 * Densities over the coupon's own ground from linear light: of black by the light's luminance, of each ink by its
 * complementary channel; no status density of ISO 5-3, but the same from coupon to coupon of one reader. Lab and chroma by
 * the reader's map. Patches that dust or a crease spoilt are left out.
 *
 * @param black the map's doubt of near-neutrals is in the Lab of black and grey (`neutralDoubt`); chroma is followed
 *   beside its own top, so that of the map's doubt only a tenth is taken for its changing along the way (a guess)
 */
export function couponValues(reading: CouponReading, map: ReaderMap): CouponSeen {
  const { ground, edge, words } = reading;
  const sound = new Map(reading.patches.filter(({ isSound }) => isSound).map((one) => [one.name, one]));
  const groundSd = ground.sd.map((v) => v / Math.sqrt(groundPlaces)) as unknown as LinearRgb;
  const all = [
    ...patchOrder.map((name) => reading.patches.find((patch) => patch.name === name)!.rgb),
    ground.rgb,
  ];
  const told = map.toLab(all);
  const groundLab = told.at(-1)!.lab;

  const black = sound.get('black');
  const density: Record<string, MeasuredFigure> = {};
  if (black)
    density.black = densityOver(
      luminance(black.rgb),
      sdOfLuminance(black.sdOfMean),
      luminance(ground.rgb),
      sdOfLuminance(groundSd),
    );
  const chroma: Record<string, MeasuredFigure> = {};
  for (const name of inks) {
    const patch = sound.get(name);
    if (!patch) continue;
    const c = channelOf[name];
    density[name] = densityOver(patch.rgb[c], patch.sdOfMean[c], ground.rgb[c], groundSd[c]);
    chroma[name] = chromaOf(patch, told[patchOrder.indexOf(name)]!, map, luminance(ground.rgb));
  }
  const labOf = (name: 'black' | 'grey'): MeasuredLab | undefined => {
    const patch = sound.get(name);
    return patch && neutralLab(patch, told[patchOrder.indexOf(name)]!, map, luminance(ground.rgb));
  };
  const [blackLab, greyLab] = [labOf('black'), labOf('grey')];
  const edgeUm = edge ? ownEdge(edge) : undefined;
  const values: CouponValues = {
    ...(Object.keys(density).length > 0 ? { density } : {}),
    ...(Object.keys(chroma).length > 0 ? { chroma } : {}),
    ...(blackLab ? { blackLab } : {}),
    ...(greyLab ? { greyLab } : {}),
    ...(edgeUm ? { edgeUm } : {}),
    ...(words.length > 0 ? { smallText: readableShare(words) } : {}),
  };
  return {
    values: values as CouponSeen['values'],
    seenHex: told.map(({ lab }) => hexBeside(lab, groundLab)),
    remarks: reading.remarks,
  };
}

/** Lab of light, and its standard deviation from the light's alone: each channel moved by one of its own. */
function labNoise(patch: CouponPatchReading, map: ReaderMap, groundLight: number): Triple {
  const sd = patch.rgb.map((v, c) => sdOfLight(v, patch.sdOfMean[c]!, groundLight));
  const moved = [0, 1, 2].map((c) => patch.rgb.map((v, k) => (k === c ? v + sd[c]! : v)));
  const told = map.toLab([patch.rgb, ...(moved as unknown as LinearRgb[])]).map(({ lab }) => lab);
  return [0, 1, 2].map((j) =>
    Math.hypot(...[1, 2, 3].map((k) => told[k]![j]! - told[0]![j]!)),
  ) as unknown as Triple3;
}

function chromaOf(
  patch: CouponPatchReading,
  { lab, sdLab }: ReadColour,
  map: ReaderMap,
  groundLight: number,
): MeasuredFigure {
  const noise = labNoise(patch, map, groundLight);
  const value = Math.hypot(lab[1], lab[2]);
  const along = (sd: Triple): number =>
    value < 1e-6 ? Math.max(sd[1], sd[2]) : Math.hypot(lab[1] * sd[1], lab[2] * sd[2]) / value;
  return { value, sd: Math.hypot(along(noise), 0.1 * along(sdLab)) };
}

function neutralLab(
  patch: CouponPatchReading,
  { lab, sdLab }: ReadColour,
  map: ReaderMap,
  groundLight: number,
): MeasuredLab {
  const noise = labNoise(patch, map, groundLight);
  const doubt = map.data.grade === 'D' ? neutralDoubt(lab[0]) : sdLab;
  return {
    lab: [...lab],
    sdLab: noise.map((sd, j) => Math.hypot(sd, doubt[j]!)) as unknown as Triple3,
  };
}

/**
 * What a reader taken at its word (grade D, bare ground as neutral) errs by on near-neutrals of dyes, standard deviation
 * in Lab. Strong colours err by far more, which is why the map's own figure is not used here. Rule: on 90 virtual
 * scanners (30 models, three lamps) and the blacks and greys of a virtual printer, the hue of black (L* 17) erred by 1.2
 * root mean square, that of L* 25 by 2.2, of a grey of L* 54 by 4.2. The doubt is one for all coupons of a reader; each is
 * given it whole, so the window's own doubt contains only part of it: the ladder's remarks say the rest.
 */
export function neutralDoubt(lightness: number): Triple {
  const hue = Math.min(4.5, Math.max(1, 0.09 * lightness - 0.3));
  return [3, hue, hue];
}

/**
 * The reader's own 10–90 % width in its pixels: σ of about 0.65 pixels for optics and pixel together (a guess for flatbeds
 * at their own resolution; 2.563·σ). Gaussian widths add as squares, so it is taken out so.
 */
const readerPixels = { width: 1.7, sd: 0.35 } as const;

/** The print's own edge width, µm. At the reader's limit only that it is crisp or better: a narrow value known badly. */
function ownEdge({ widthUm, sdUm, pixelUm, isReadersLimit }: EdgeReading): MeasuredFigure {
  const reader = readerPixels.width * pixelUm;
  const least = 0.5 * pixelUm;
  const own = Math.max(least, Math.sqrt(Math.max(0, widthUm ** 2 - reader ** 2)));
  const bySeen = (sdUm * widthUm) / own;
  const byReader = (reader * readerPixels.sd * pixelUm) / own;
  if (isReadersLimit) return { value: own, sd: Math.max(0.4 * own, Math.min(own, bySeen)) };
  // The reader's softness errs alike for all coupons of a picture: only how differently it weighs on them counts.
  return { value: own, sd: Math.hypot(bySeen, 0.15 * byReader) };
}

/** Strokes of a quarter of the black's darkness cannot be read, of three quarters easily (a rule of thumb of ours). */
function readableShare(words: CouponReading['words']): MeasuredFigure {
  const shares = words.map(({ strength }) => Math.min(1, Math.max(0, (strength - 0.25) / 0.5)));
  return { value: shares.reduce((sum, v) => sum + v, 0) / shares.length, sd: 0.05 };
}

/** Grey to any reader: no share of the colour it should have. */
const greyShare = 0.02;

/** Whether the inks of a coupon look like cyan, magenta and yellow at all. */
export function inkColours({ patches, ground }: CouponReading): 'right' | 'exchanged' | 'grey' {
  const shares = inks.map((name) => {
    const { rgb } = patches.find((patch) => patch.name === name)!;
    return rgb.map((v, c) => v / ground.rgb[c]!);
  });
  const spread = (v: readonly number[]): number => Math.max(...v) - Math.min(...v);
  if (shares.every((share) => spread(share) <= greyShare)) return 'grey';
  const isRight = inks.every((name, i) => {
    const own = channelOf[name];
    // Before the dye has arrived all inks are pale and any channel may be lowest by chance.
    return spread(shares[i]!) < 0.1 || shares[i]![own] === Math.min(...shares[i]!);
  });
  return isRight ? 'right' : 'exchanged';
}
