import { createRandom } from '#craft/numerics';
import { fitCylinder, fitCylinderAngle, type MatchedPlace, missOf } from './surface-map.js';
import type { SurfaceMap } from './types.js';

/** Six places have twelve equations for eleven unknowns. */
const fewest = 6;
const draws = 2000;

/**
 * A cylinder through as many matches as can be, the likeliest first and most perhaps wrong: drawn samples (Fischler & Bolles, CACM 24(6),
 * 1981), each better one fitted anew to all it agrees with (Chum, Matas & Kittler, DAGM 2003).
 * @param angles least and most angle that the artwork's width goes round, radians; the same twice when known
 * @returns null when no sample agrees with twice as many as it was made from
 */
export function findCylinder(
  matches: readonly MatchedPlace[],
  widthPixels: number,
  angles: readonly [number, number],
  nearPixels: number,
): { readonly map: SurfaceMap; readonly inliers: readonly MatchedPlace[] } | null {
  if (matches.length < 2 * fewest) return null;
  const random = createRandom(20_041);
  const agreeing = (map: SurfaceMap): MatchedPlace[] =>
    matches.filter((match) => missOf(map, match) < nearPixels);
  let best: { map: SurfaceMap; inliers: readonly MatchedPlace[] } | null = null;
  for (let draw = 0; draw < draws; draw += 1) {
    const picked = new Set<number>();
    while (picked.size < fewest) picked.add(Math.floor(matches.length * random.uniform() ** 1.6));
    const angle = angles[0] + (angles[1] - angles[0]) * random.uniform();
    const drawn = fitCylinder(
      [...picked].map((i) => matches[i]!),
      angle,
      widthPixels,
    );
    if (!drawn) continue;
    let map = drawn;
    let inliers = agreeing(map);
    if (inliers.length <= (best?.inliers.length ?? 2 * fewest - 1)) continue;
    for (let round = 0; round < 3; round += 1) {
      const again =
        angles[0] === angles[1]
          ? fitCylinder(inliers, angle, widthPixels)
          : fitCylinderAngle(inliers, widthPixels, angles);
      const more = again ? agreeing(again) : [];
      if (!again || more.length < inliers.length) break;
      [map, inliers] = [again, more];
    }
    best = { map, inliers };
  }
  return best;
}
