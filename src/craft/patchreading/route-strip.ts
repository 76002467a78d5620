import type { Point } from '#craft/reading';
import type { RectMm } from '#craft/sheet';
import type { ChartLayout } from '#craft/testsheet';
import { type Ground, groundAt, type LightField } from './light-field.js';
import { patchValue } from './patch-value.js';
import { luminance, median } from './picture.js';
import type { PlacedPatches } from './place-patches.js';
import { biweights, dot, weightedFit } from './polynomial.js';
import { spoiling } from './remarks.js';
import type { LinearRgb, RoutePatchReading, SampledPicture } from './types.js';

/** The bare ground is looked at so far from the strip's long sides: clear of ink spread, short of the next mark. */
const besideMm = 1;
const reachMm = 0.25;
/** Nearer to the sheet's edge the lid may show. */
const edgeMm = 1.5;
/** Ground beside one patch that differs so much from that along the strip lies under a glint or a shadow. */
const oddBeside = 0.03;
/** And so much from the light of the patches' field nearest by: more than any lamp falls off over a band. */
const oddStrip = 0.12;

interface Beside extends Omit<Ground, 'at'> {
  /** −1..1 along the strip. */
  readonly along: number;
  readonly patch: number;
}

/**
 * The route strip, flat-fielded like the patches. It lies outside their field, where the fitted light does not reach,
 * so the ground on both sides of the strip itself tells the light.
 */
export function readRouteStrip(
  picture: SampledPicture,
  layout: ChartLayout,
  placed: PlacedPatches,
  light: LightField,
  ground: LinearRgb,
  grain: number,
): RoutePatchReading[] {
  const strip = layout.frame.routeStrip;
  const beside = strip.flatMap(({ rect }, patch): Beside[] =>
    placesBeside(rect, strip.length > 1 && strip[1]!.rect.yMm === strip[0]!.rect.yMm)
      .filter(
        ({ x, y }) => Math.min(x, y) > edgeMm && x < layout.widthMm - edgeMm && y < layout.heightMm - edgeMm,
      )
      .flatMap((place) => {
        const moved = placed.shiftNear(place);
        const at = { x: place.x + moved.x, y: place.y + moved.y };
        const seen = groundAt(picture, placed.pose, at, reachMm);
        return seen ? [{ ...seen, patch, along: (2 * patch) / (strip.length - 1) - 1 }] : [];
      }),
  );
  const lightAlong = fittedAlong(beside);
  return strip.flatMap(({ name, rgb: deviceRgb, rect }, patch): RoutePatchReading[] => {
    const middle = middleOf(rect);
    const value = patchValue(picture, layout, placed.pose, rect, placed.shiftNear(middle), grain);
    if (!value) return [];
    const near = light.at(inside(layout.area, middle));
    const here = lightAlong?.((2 * patch) / (strip.length - 1) - 1) ?? near;
    const own = beside.filter((one) => one.patch === patch).map(({ rgb }) => luminance(rgb));
    const isOdd =
      lightAlong === null ||
      own.length === 0 ||
      // Words stand close to one side in some frames; the lighter side is the bare one, and a glint shows there.
      Math.abs(Math.max(...own) / luminance(here) - 1) > oddBeside + 6 * grainOfLight(light) ||
      Math.abs(luminance(here) / luminance(near) - 1) > oddStrip;
    return [
      {
        name,
        deviceRgb,
        seenRgb: value.rgb.map((v, c) => (v * ground[c]!) / here[c]!) as unknown as LinearRgb,
        isSound: !isOdd && !value.warnings.some((warning) => spoiling.has(warning)),
      },
    ];
  });
}

const grainOfLight = ({ scatter }: LightField): number => Math.min(0.01, scatter);

/** Off the middle of the two sides that are no other patch's. */
function placesBeside({ xMm, yMm, widthMm, heightMm }: RectMm, isLying: boolean): Point[] {
  const { x, y } = { x: xMm + widthMm / 2, y: yMm + heightMm / 2 };
  return isLying
    ? [-widthMm / 4, widthMm / 4].flatMap((dx) => [
        { x: x + dx, y: yMm - besideMm },
        { x: x + dx, y: yMm + heightMm + besideMm },
      ])
    : [-heightMm / 4, heightMm / 4].flatMap((dy) => [
        { x: xMm - besideMm, y: y + dy },
        { x: xMm + widthMm + besideMm, y: y + dy },
      ]);
}

/** A parabola through the logarithm of the ground's light along the strip, robust against words and glints. */
function fittedAlong(beside: readonly Beside[]): ((along: number) => LinearRgb) | null {
  if (beside.length < 8) return null;
  const rows = beside.map(({ along }) => [1, along, along * along]);
  const logs = [0, 1, 2].map((c) => beside.map(({ rgb }) => Math.log(Math.max(1e-4, rgb[c]!))));
  // What is darker than most is ink.
  const bright = median(beside.map(({ rgb }) => luminance(rgb)));
  let weights: number[] = beside.map(({ rgb }) => (luminance(rgb) > 0.8 * bright ? 1 : 0));
  let fits: Float64Array[] = [];
  for (let round = 0; round < 6; round += 1) {
    const next = logs.map((values) => weightedFit(rows, values, weights));
    if (next.some((fit) => fit === null)) return null;
    fits = next as Float64Array[];
    const residuals = rows.map(
      (row, i) => logs.reduce((sum, values, c) => sum + values[i]! - dot(fits[c]!, row), 0) / 3,
    );
    weights = biweights(residuals, 0.003);
  }
  return (along) => {
    const row = [1, along, along * along];
    return fits.map((fit) => Math.exp(dot(fit, row))) as unknown as LinearRgb;
  };
}

const inside = ({ xMm, yMm, widthMm, heightMm }: RectMm, { x, y }: Point): Point => ({
  x: Math.min(xMm + widthMm, Math.max(xMm, x)),
  y: Math.min(yMm + heightMm, Math.max(yMm, y)),
});
const middleOf = (rect: RectMm): Point => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
