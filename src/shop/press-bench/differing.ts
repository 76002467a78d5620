import type { LadderCoupon } from '#contract';
import type { MeasuredFigure } from './reader-noise.js';

type Values = NonNullable<LadderCoupon['values']>;

/** Two readings of one thing lie further apart in one of 16 000 cases by chance. */
const farFrom = 4;

/** How many of the values that both have lie further apart than their own doubt allows. */
export function countDiffering(one: Values, other: Values): number {
  return differing(one, other).length;
}

/** By name, the gravest first. */
export function differing(one: Values, other: Values): string[] {
  const pairs: [string, MeasuredFigure | undefined, MeasuredFigure | undefined][] = [
    ...(['black', 'cyan', 'magenta', 'yellow'] as const).map(
      (name): [string, MeasuredFigure | undefined, MeasuredFigure | undefined] => [
        `density of ${name}`,
        one.density?.[name],
        other.density?.[name],
      ],
    ),
    ['edge width', one.edgeUm, other.edgeUm],
  ];
  return pairs
    .flatMap(([name, a, b]) => {
      if (!a || !b) return [];
      const far = Math.abs(a.value - b.value) / Math.hypot(a.sd, b.sd);
      return far > farFrom ? [{ name, far }] : [];
    })
    .sort((a, b) => b.far - a.far)
    .map(({ name }) => name);
}
