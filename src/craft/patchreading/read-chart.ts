import { Problem } from '#craft/problem';
import type { Point, SheetPose } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { agreement } from './belongs.js';
import { type LightField, lightField } from './light-field.js';
import { repeatability, unlikeOnes } from './likes.js';
import { grainOf, type PatchValue, patchValue } from './patch-value.js';
import { luminance } from './picture.js';
import { type PlacedPatches, placePatches } from './place-patches.js';
import { dyeField } from './press-evenness.js';
import { spoiling, warningSentences } from './remarks.js';
import { readRouteStrip } from './route-strip.js';
import { derivativeAt, pixelsPerMm } from './sheet-map.js';
import type { ChartReading, LinearRgb, PatchReading, PatchWarning, SampledPicture } from './types.js';
import { veilOver } from './veil.js';

/**
 * Light added or missing beside a patch, as a share of the ground's, that is glare or shadow: so much for black, and
 * more for lighter colours, which it changes less. More too where the ground itself scatters.
 */
const oddLight = (share: number): number => 0.01 + 0.03 * share;
const oddScatters = 6;
/** The threads of cloth catch the light one by one, which is no glare. */
const mostScatter = { hard: 0.06, fabric: 0.15 } as const;
/** Added light that blacks tell of; less may be dye that is thinner there. */
const veiled = 0.02;
/** Ground beside a patch that is as light as the picture can hold hides what light is added there. */
const clippedBeside = 0.4;
/** More than so much of it over the whole sheet is the exposure's fault, not a glint's. */
const clippedAll = 0.7;
/** Of the patches in the picture; with fewer sound ones the sheet is not worth going by. */
const leastSound = 0.6;
/** Shares of registration marks and of patch edges that must be where the sheet has them. */
const leastMarks = 0.5;
const leastEdges = 0.6;
const leastAgreement = 0.7;
/** Coarser than this (100 ppi) small patches have no middle left. */
const leastPixelsPerMm = 3.9;

/**
 * A colour test sheet in a picture, patch by patch. Every value is either of the patch it is said to be of, or the
 * reading is refused: marks, edges and the order of light and dark must all agree with the layout.
 *
 * @param pose where the sheet's frame lies in the picture, from its corner markers
 * @throws Problem `scan.wrong-sheet` when what is seen is not this sheet, `scan.unclear` when it cannot be made out
 */
export function readChart(picture: SampledPicture, layout: ChartLayout, pose: SheetPose): ChartReading {
  const placed = placePatches(picture, layout, pose);
  const scale = pixelsPerMm(derivativeAt(placed.pose.toPicture, middleOf(layout.area)));
  if (scale < leastPixelsPerMm) throw tooCoarse(scale);
  const grain = grainOf(picture, layout, placed.pose, placed.shifts);
  const values = layout.patches.map((patch, i) =>
    patchValue(picture, layout, placed.pose, patch.rect, placed.shifts[i]!, grain),
  );
  const outside = values.filter((value) => value === null).length;
  if (outside > 0.4 * values.length) throw mostlyOutside(outside, values.length);
  refuseOthers(layout, placed, values, outside);
  const light = lightField(picture, layout, placed.pose, placed.shiftNear);
  if (!light) throw noGround();

  const { ground, lightRatio } = groundOf(layout, light);
  const blackPatches = values.flatMap((value, i) => {
    const { rect, deviceRgb } = layout.patches[i]!;
    return value && Math.max(...deviceRgb) === 0 ? [{ at: middleOf(rect), rgb: value.rgb }] : [];
  });
  const veil = veilOver(picture, layout, placed, blackPatches, light);
  const flat = flattened(layout, values, light, veil, ground);
  const field = dyeField(
    layout,
    flat
      .filter(({ warnings }) => !warnings.some((warning) => spoiling.has(warning)))
      .map(({ index, deviceRgb, seenRgb }) => ({
        at: middleOf(layout.patches[index]!.rect),
        deviceRgb,
        rgb: seenRgb,
      })),
    ground,
  );
  const even = flat.map((patch): PatchReading => {
    const place = middleOf(layout.patches[patch.index]!.rect);
    const evenRgb = patch.seenRgb.map((v, c) => evened(v, ground[c]!, (d) => field.dyeAt(place, d)));
    return { ...patch, evenRgb: evenRgb as unknown as LinearRgb };
  });
  const unlike = unlikeOnes(even, ground);
  const patches = even.map((patch) => {
    const warnings: readonly PatchWarning[] = unlike.has(patch.index)
      ? [...patch.warnings, 'unlike-its-likes']
      : patch.warnings;
    return { ...patch, warnings, isSound: !warnings.some((warning) => spoiling.has(warning)) };
  });
  const soundCount = patches.filter(({ isSound }) => isSound).length;
  if (soundCount < leastSound * patches.length) throw mostlyDoubtful(soundCount, patches);
  const likes = repeatability(patches, ground);
  const surface = pose.seenMirrored ? 'paper' : 'piece';
  const largestShiftMm = Math.max(0, ...placed.shifts.map(({ x, y }) => Math.hypot(x, y)));
  const { least, most, isKnown } = field.evenness;
  const remarks = [
    ...(outside > 0
      ? [`${outside} of ${values.length} patches lie outside the picture; show the whole sheet to read them.`]
      : []),
    ...(light.clippedShare > 0.2
      ? [
          'The bare ground is as light as the picture can hold, so its light could not be checked there; turn the brightness down and read again.',
        ]
      : []),
    ...warningSentences(patches),
    ...(isKnown && most.dye - least.dye > 0.03
      ? [
          `There is ${Math.round(100 * (1 - least.dye / most.dye))} % less dye ${least.where} than ${most.where}; this was taken out of the colours${surface === 'piece' ? ', but look to the press (pressure, heat) if it is more than 10 %' : ''}.`,
        ]
      : []),
    ...(largestShiftMm > 1
      ? [
          `The sheet is not flat or has stretched by up to ${largestShiftMm.toFixed(1)} mm; the reading followed it.`,
        ]
      : []),
  ];
  return {
    sheetId: layout.sheetId,
    surface,
    lie: lieOf(placed.pose, layout),
    toPicture: placed.pose.toPicture,
    patches,
    outside,
    groundRgb: ground,
    lightRatio,
    evenness: field.evenness,
    repeatability: likes ?? { sd: [0, 0, 0], meanDeltaE00: 0, patches: 0 },
    routeStrip: readRouteStrip(picture, layout, placed, light, ground, grain),
    registration: {
      expected: layout.registration.length,
      found: placed.registration.found,
      largestShiftMm,
      seen: placed.registration.seen,
    },
    pixelsPerMm: scale,
    remarks,
  };
}

/** Mean ground over the patches' places: what the sheet would show in even light. */
function groundOf(layout: ChartLayout, light: LightField): { ground: LinearRgb; lightRatio: number } {
  const all = layout.patches.map(({ rect }) => light.at(middleOf(rect)));
  const mean = (c: 0 | 1 | 2): number => all.reduce((sum, rgb) => sum + rgb[c], 0) / all.length;
  const levels = all.map(luminance);
  return { ground: [mean(0), mean(1), mean(2)], lightRatio: Math.max(...levels) / Math.min(...levels) };
}

function flattened(
  layout: ChartLayout,
  values: readonly (PatchValue | null)[],
  light: LightField,
  veil: (place: Point) => number,
  ground: LinearRgb,
): PatchReading[] {
  return values.flatMap((value, index): PatchReading[] => {
    if (!value) return [];
    const { rect, deviceRgb, chosen } = layout.patches[index]!;
    const here = light.at(middleOf(rect));
    const even = (rgb: LinearRgb): LinearRgb => [
      (rgb[0] * ground[0]) / here[0],
      (rgb[1] * ground[1]) / here[1],
      (rgb[2] * ground[2]) / here[2],
    ];
    const seenRgb = even(value.rgb);
    const place = middleOf(rect);
    const scatter = Math.min(mostScatter[layout.material], oddScatters * light.scatter);
    const limit = Math.max(oddLight(luminance(seenRgb) / luminance(ground)), scatter);
    const isOdd =
      Math.abs(light.oddness(place) ?? 0) > limit ||
      veil(place) > Math.max(veiled, limit) ||
      (light.clippedShare < clippedAll && light.clippedNear(place) > clippedBeside);
    const warnings: PatchWarning[] = isOdd ? [...value.warnings, 'odd-light'] : [...value.warnings];
    const { pixels, usedShare, outline } = value;
    return [
      {
        index,
        chosen,
        deviceRgb,
        seenRgb,
        evenRgb: seenRgb,
        sd: even(value.sd),
        pixels,
        usedShare,
        warnings,
        isSound: true,
        outline,
      },
    ];
  });
}

/** Light as it would be with the sheet's mean dye (Bouguer): the share of the ground's to a power. */
function evened(v: number, ground: number, dyeAt: (density: number) => number): number {
  const share = v / ground;
  if (!(share > 0 && share < 1)) return v;
  const density = -Math.log(share);
  // The field goes by the density of even dye, so that is found first.
  const even = density / dyeAt(density);
  return ground * Math.exp(-density / dyeAt(even));
}

function lieOf({ toPicture, seenMirrored }: SheetPose, { area }: ChartLayout): ChartReading['lie'] {
  const [, acrossByDown, , downByDown] = derivativeAt(toPicture, middleOf(area));
  // The sheet's upward direction against the picture's, clockwise.
  const turned = (Math.atan2(-acrossByDown, downByDown) * 180) / Math.PI;
  const quarter = (((Math.round(turned / 90) % 4) + 4) % 4) * 90;
  return { turnedDegrees: quarter as 0 | 90 | 180 | 270, mirrored: seenMirrored };
}

function refuseOthers(
  layout: ChartLayout,
  placed: PlacedPatches,
  values: readonly (PatchValue | null)[],
  outside: number,
): void {
  const inside = 1 - outside / values.length;
  const { found } = placed.registration;
  if (found < leastMarks * inside * layout.registration.length || placed.edgeShare < leastEdges * inside) {
    throw new Problem(
      'scan.unclear',
      'The patches are not where this colour test sheet has them, so none of them was read.',
      {
        remedy:
          'Lay the sheet flat, show all of it, sharp and without glare, at 300 ppi. If it is another sheet, choose that one.',
        where: `${found} of ${layout.registration.length} registration marks, edges of ${Math.round(100 * placed.edgeShare)} %`,
      },
    );
  }
  const seen = values.flatMap((value, i) =>
    value ? [{ deviceRgb: layout.patches[i]!.deviceRgb, rgb: value.rgb }] : [],
  );
  const agree = agreement(seen);
  if (agree < leastAgreement) {
    throw new Problem(
      'scan.wrong-sheet',
      'The colours in the picture are not those of this colour test sheet.',
      {
        remedy:
          'Choose the sheet that was really printed, or print this one again without changing its colours.',
        where: `agreement ${agree.toFixed(2)}`,
      },
    );
  }
}

const tooCoarse = (scale: number): Problem =>
  new Problem('scan.unclear', `The picture shows the sheet at only ${Math.round(25.4 * scale)} ppi.`, {
    remedy: 'Scan it at 300 ppi, or go nearer with the camera so that the sheet fills the picture.',
  });
const mostlyOutside = (outside: number, all: number): Problem =>
  new Problem('scan.unclear', `${outside} of the sheet’s ${all} patches are not in the picture.`, {
    remedy: 'Show the whole sheet with its four corner marks.',
  });
const mostlyDoubtful = (sound: number, patches: readonly PatchReading[]): Problem => {
  const [worst = ''] = warningSentences(patches);
  return new Problem('scan.unclear', `Only ${sound} of ${patches.length} patches could be read soundly.`, {
    remedy: `${worst} Scan the sheet flat and clean, without automatic correction, at 300 ppi.`.trim(),
  });
};
const noGround = (): Problem =>
  new Problem('scan.unclear', 'Too little of the bare ground between the patches could be seen.', {
    remedy: 'Scan the whole sheet flat at 300 ppi.',
  });

const middleOf = (rect: ChartLayout['area']): { x: number; y: number } => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
