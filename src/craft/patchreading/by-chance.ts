import { createRandom } from '#craft/numerics';
import { centredTerms, fitLikes, fitTerms, type Likes } from './like-groups.js';
import { median } from './picture.js';
import { dot } from './polynomial.js';

const shufflings = 199;

/**
 * Whether a field of so many unknowns explains the likes better than chance: better than each of 199 shufflings of
 * patches among the places of their own colour (Fisher's permutation test, 0.5 %). A patch is moved with all its
 * channels, whose errors go together, so that no assumption on noise is needed.
 * @param beyond unknowns already granted: their fit is taken out first and only what is left is shuffled (Freedman &
 *   Lane, J. Bus. Econ. Stat. 1, 1983)
 */
export function isBeyondChance(likes: readonly Likes[], unknowns: number, beyond: number): boolean {
  const left = tamed(beyond > 0 ? without(likes, beyond) : likes);
  const random = createRandom(1);
  const own = explained(left, unknowns, beyond);
  if (!(own > 0)) return false;
  for (let round = 0; round < shufflings; round += 1) {
    const places = left.map(({ rows }) => random.shuffle(rows.map((_, i) => i)));
    if (explained(left, unknowns, beyond, places) >= own) return false;
  }
  return true;
}

/** Sum of squares taken away by the further unknowns, over what stays. */
function explained(
  likes: readonly Likes[],
  unknowns: number,
  beyond: number,
  places?: readonly (readonly number[])[],
): number {
  const terms = centredTerms(likes, unknowns, null, places);
  const fit = fitTerms(terms);
  if (!fit) return 0;
  const before = terms.map(({ row, ...term }) => ({ ...term, row: row.slice(0, beyond) }));
  const granted = beyond > 0 ? fitTerms(before) : new Float64Array(0);
  if (!granted) return 0;
  const squares = (some: typeof terms, by: Float64Array): number =>
    some.reduce((sum, { row, value, weight }) => sum + weight * (value - dot(by, row)) ** 2, 0);
  const after = squares(terms, fit);
  return (squares(before, granted) - after) / after;
}

function without(likes: readonly Likes[], unknowns: number): readonly Likes[] {
  const fit = fitLikes(likes, unknowns);
  if (!fit) return likes;
  return likes.map(({ rows, channels }) => ({
    rows,
    channels: channels.map((channel) => ({
      ...channel,
      values: channel.values.map((v, i) => v - dot(fit, rows[i]!.slice(0, unknowns))),
    })),
  }));
}

/** Wild values drawn in to four standard deviations of their likes. */
function tamed(likes: readonly Likes[]): readonly Likes[] {
  return likes.map(({ rows, channels }) => ({
    rows,
    channels: channels.map((channel) => {
      const middle = median(channel.values);
      const far = 4 * 1.4826 * median(channel.values.map((v) => Math.abs(v - middle)));
      return {
        ...channel,
        values: channel.values.map((v) => Math.min(middle + far, Math.max(middle - far, v))),
      };
    }),
  }));
}
