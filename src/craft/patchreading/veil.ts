import type { Point } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { groundAt, type LightField } from './light-field.js';
import { luminance } from './picture.js';
import type { PlacedPatches } from './place-patches.js';
import type { LinearRgb, SampledPicture } from './types.js';

/** Where this share of the blacks is darker, no light is thought to be added. */
const cleanShare = 0.3;
/** Light is only taken as added where the ground too is lighter, by at least so much of what the black is. */
const groundShows = 0.5;

interface Black {
  readonly at: Point;
  /** Share of the ground's light. */
  readonly share: number;
}

/**
 * Light thrown back by the gloss over so broad a spot that it passes for the lamp's own: a lamp's light makes ground
 * and black lighter in proportion, a glint adds the same to both. The registration marks and the black patches, all of
 * one ink, tell it.
 * @returns light added at a place, as a share of the ground's
 */
export function veilOver(
  picture: SampledPicture,
  layout: ChartLayout,
  placed: PlacedPatches,
  blackPatches: readonly { readonly at: Point; readonly rgb: LinearRgb }[],
  light: LightField,
): (place: Point) => number {
  const shareAt = (at: Point, rgb: LinearRgb): Black => ({
    at,
    share: luminance(rgb) / luminance(light.at(at)),
  });
  const marks = layout.registration.flatMap(({ xMm, yMm, sideMm }): Black[] => {
    const at = { x: xMm, y: yMm };
    const shift = placed.shiftNear(at);
    const seen = groundAt(picture, placed.pose, { x: xMm + shift.x, y: yMm + shift.y }, 0.15 * sideMm);
    return seen ? [shareAt(at, seen.rgb)] : [];
  });
  // Marks are smaller and come out a little lighter, so each kind has its own clean black.
  const blacks = [marks, blackPatches.map(({ at, rgb }) => shareAt(at, rgb))].flatMap(beyondClean);
  const levels = layout.patches.map(({ rect }) => luminance(light.at(middleOf(rect)))).sort((a, b) => a - b);
  const usual = levels[Math.floor(cleanShare * levels.length)]!;
  const reachMm = 0.6 * placed.registration.reachMm;
  return (place) => {
    let weights = 0;
    let sum = 0;
    for (const { at, share } of blacks) {
      const w = Math.exp(-((at.x - place.x) ** 2 + (at.y - place.y) ** 2) / (2 * reachMm ** 2));
      weights += w;
      sum += w * share;
    }
    const added = weights > 0.05 ? sum / weights : 0;
    const lighter = luminance(light.at(place)) / usual - 1;
    return lighter > groundShows * added ? added : 0;
  };
}

function beyondClean(blacks: readonly Black[]): Black[] {
  const sorted = blacks.map(({ share }) => share).sort((a, b) => a - b);
  const clean = sorted[Math.floor(cleanShare * sorted.length)] ?? 0;
  return blacks.map(({ at, share }) => ({ at, share: Math.max(0, share - clean) }));
}

const middleOf = (rect: ChartLayout['area']): Point => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
