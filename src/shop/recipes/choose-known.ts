import type { Blank, RecipeVersion } from '#contract';
import { type Body, usualBody, warmthJPerM2K } from '#shop/heat-desk';

export interface Candidate {
  readonly blank: Blank;
  readonly latest: RecipeVersion | undefined;
}

/**
 * The blank to carry a recipe over from: one whose recipe was measured here by a ladder if there is any that is pressed in
 * the same way (flat, or in a wrap), else the one most like it; null where none can be.
 */
export function chooseKnown(blank: Blank, body: Body, candidates: readonly Candidate[]): Blank | null {
  const fit = candidates.filter(
    (candidate) => candidate.blank.id !== blank.id && candidate.blank.coating.kind !== 'none',
  );
  const measured = fit.filter(
    (candidate) => candidate.latest?.ground.kind === 'ladder' && isRound(candidate.blank) === isRound(blank),
  );
  // What was itself carried over has nothing to lend while others have.
  const firm = fit.filter((candidate) => candidate.latest?.ground.kind !== 'heat');
  const among = [measured, firm, fit].find((some) => some.length > 0) ?? [];
  const ranked = among
    .map((candidate) => ({ blank: candidate.blank, far: unlike(blank, body, candidate.blank) }))
    .sort((a, b) => a.far - b.far || (a.blank.id < b.blank.id ? -1 : 1));
  return ranked[0]?.blank ?? null;
}

/**
 * How unlike two blanks are to heat: warmth they take up per area, in ratios; then what they are made of, coated with and
 * how they are held. Weights are judgements; they only rank.
 */
function unlike(blank: Blank, body: Body, other: Blank): number {
  return (
    Math.abs(Math.log(warmthJPerM2K(body) / warmthJPerM2K(usualBody(other)))) +
    (blank.material === other.material ? 0 : 0.5) +
    (blank.coating.kind === other.coating.kind ? 0 : 1) +
    (isRound(blank) === isRound(other) ? 0 : 2) +
    Math.abs((blank.polyesterPercent ?? 100) - (other.polyesterPercent ?? 100)) / 100
  );
}

const isRound = (blank: Blank): boolean => blank.shape.kind === 'cylinder';
