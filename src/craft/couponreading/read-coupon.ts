import {
  derivativeAt,
  groundAt,
  type LinearRgb,
  luminance,
  patchValue,
  pixelsPerMm,
  type SampledPicture,
  spoiling,
} from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import { type CouponLayout, numberCells, numberOfCells } from '#craft/testsheet';
import { type GroundPlane, groundPlane } from './ground-plane.js';
import { readEdges } from './read-edges.js';
import type { CouponPatchReading, CouponReading } from './types.js';

/** Coarser (130 ppi) than this the patches have no middle and the edges are the scanner's. */
const leastPixelsPerMm = 5.1;

/**
 * One coupon in a picture: its number, patches, edges, ground.
 *
 * @param pose where its frame lies, from its own markers
 * @throws Problem `scan.unclear` when it is cut off, too small in the picture or shows no ground
 */
export function readCoupon(picture: SampledPicture, layout: CouponLayout, pose: SheetPose): CouponReading {
  const { widthMm, heightMm } = layout;
  const scale = pixelsPerMm(derivativeAt(pose.toPicture, { x: widthMm / 2, y: heightMm / 2 }));
  if (scale < leastPixelsPerMm) {
    throw new Problem('scan.unclear', `The coupon has only ${scale.toFixed(1)} pixels a millimetre.`, {
      remedy: 'Scan coupons at 300 ppi or more; 600 ppi shows edges best.',
    });
  }
  const ground = groundPlane(picture, layout, pose);
  const patches = layout.patches.map(({ name, rect }): CouponPatchReading | null => {
    const value = patchValue(picture, layout, pose, rect, { x: 0, y: 0 }, 1);
    if (!value) return null;
    const even = evened(ground, { x: rect.xMm + rect.widthMm / 2, y: rect.yMm + rect.heightMm / 2 });
    const isSound = !value.warnings.some((warning) => spoiling.has(warning));
    const { warnings } = value;
    return {
      name,
      rgb: even(value.rgb),
      sd: even(value.sd),
      sdOfMean: even(value.sdOfMean),
      warnings,
      isSound,
    };
  });
  const whole = patches.filter((patch) => patch !== null);
  if (!ground || whole.length < patches.length) {
    throw new Problem('scan.unclear', 'Part of the coupon is not in the picture.', {
      remedy: 'Lay the whole coupon on the glass, some millimetres from its edge.',
    });
  }
  const { edge, remarks: edgeRemarks } = readEdges(picture, layout, pose, scale);
  const doubtful = whole.filter(({ isSound }) => !isSound).map(({ name }) => name);
  const { rgb, sd, isClipped, lightRatio } = ground;
  const black = luminance(whole.find(({ name }) => name === 'black')!.rgb);
  return {
    surface: pose.seenMirrored ? 'paper' : 'piece',
    cellNumber: numberFromCells(picture, layout, pose),
    patches: whole,
    ground: { rgb, sd, isClipped },
    lightRatio,
    edge,
    words: layout.words.map(({ capMm, box }) => ({
      capMm,
      strength: strokes(picture, pose, box, scale, luminance(rgb), black),
    })),
    pixelsPerMm: scale,
    outline: [
      [0, 0],
      [widthMm, 0],
      [widthMm, heightMm],
      [0, heightMm],
    ].map(([x, y]) => mapPoint(pose.toPicture, { x: x!, y: y! })),
    remarks: [
      ...(doubtful.length > 0
        ? [`${doubtful.join(', ')}: dust, a crease or a glint there; the value is doubtful.`]
        : []),
      ...(isClipped
        ? ['The bare ground is as light as the picture can hold; turn the brightness down and scan again.']
        : []),
      ...edgeRemarks,
    ],
  };
}

/** As in the coupon's mean light. Only within it: what the ground itself has turned to is part of the answer. */
const evened =
  (ground: GroundPlane | null, place: Point) =>
  (rgb: LinearRgb): LinearRgb => {
    if (!ground) return rgb;
    const here = ground.at(place);
    return rgb.map((v, c) => (v * ground.rgb[c]!) / here[c]!) as unknown as LinearRgb;
  };

function numberFromCells(picture: SampledPicture, { number }: CouponLayout, pose: SheetPose): number | null {
  const side = number.widthMm / numberCells;
  const darkness = Array.from({ length: numberCells ** 2 }, (_, i) => {
    const middle = {
      x: number.xMm + ((i % numberCells) + 0.5) * side,
      y: number.yMm + (Math.floor(i / numberCells) + 0.5) * side,
    };
    const seen = groundAt(picture, pose, middle, 0.28 * side);
    return seen ? -luminance(seen.rgb) : Number.NaN;
  });
  return numberOfCells(darkness);
}

/** How dark the darkest twentieth of a line of words is: thin strokes pale as dye spreads out of them. */
function strokes(
  picture: SampledPicture,
  pose: SheetPose,
  box: CouponLayout['label'],
  scale: number,
  ground: number,
  black: number,
): number {
  const step = 0.7 / scale;
  const seen: number[] = [];
  for (let y = box.yMm; y < box.yMm + box.heightMm; y += step) {
    for (let x = box.xMm; x < box.xMm + box.widthMm; x += step) {
      const spot = groundAt(picture, pose, { x, y }, 0);
      if (spot) seen.push(luminance(spot.rgb));
    }
  }
  seen.sort((a, b) => a - b);
  const dark = seen[Math.floor(0.05 * seen.length)];
  return dark === undefined || ground <= black ? 0 : Math.max(0, (ground - dark) / (ground - black));
}
