import type { Triple } from '#craft/colour';
import type { SampledPicture } from '#craft/patchreading';
import type { PlaneMap } from '#craft/reading';
import type { GridTarget } from './grid-target.js';
import { learnBy, pairsOf } from './learn.js';
import { spotValue } from './spot.js';
import type { ReaderSample } from './types.js';

/** Looked for under the field, from its edge on, in cells. */
const nearest = 0.5;
const farthest = 3;
const stepCells = 0.1;
/** Half the side looked at: steps may be narrower than cells. */
const half = 0.2;
/** What the field says of the steps' lightness may be off by so much, L*, in the middle. */
const mostOff = 3;

/**
 * The grey scale under a field. Corners do not say where it stands, so it is looked for: a row of steps either as
 * wide as columns (the first one column left of A1, as on targets of ISO 12641, from memory) or sharing the field's
 * width. It is taken only where the field's own colours agree with the file.
 * @returns null: not found
 */
export function readGreyScale(
  picture: SampledPicture,
  toPicture: PlaneMap,
  { columns, rows }: GridTarget,
  greyScale: readonly Triple[],
  field: readonly ReaderSample[],
): ReaderSample[] | null {
  const learnt = learnBy('root-2', pairsOf(field), 1) ?? learnBy('matrix', pairsOf(field), 1);
  if (learnt === null) return null;
  const places = [
    (i: number): number => i - 0.5,
    (i: number): number => ((i + 0.5) * columns) / greyScale.length,
  ];
  let best: { samples: ReaderSample[]; off: number } | null = null;
  for (let below = nearest; below <= farthest; below += stepCells) {
    for (const place of places) {
      const spots = greyScale.map((_, i) =>
        spotValue(picture, toPicture, { x: place(i), y: rows + below }, half),
      );
      if (spots.some((spot) => spot === null)) continue;
      const samples = spots.flatMap((spot, i): ReaderSample[] =>
        spot === null || spot.clipped ? [] : [{ rgb: spot.rgb, lab: greyScale[i]!, name: `GS${i}` }],
      );
      const offs = samples
        .map(({ rgb, lab }) => Math.abs(learnt.fitted.at(rgb).lab[0] - lab[0]))
        .sort((a, b) => a - b);
      const off = offs[Math.floor(0.8 * offs.length)] ?? Number.POSITIVE_INFINITY;
      if (off < mostOff && (best === null || off < best.off)) best = { samples, off };
    }
  }
  return best?.samples ?? null;
}
