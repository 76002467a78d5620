import type { Field, Place, PlaceValue } from './types.js';

/** One place that differs: a bell over the distance from its middle. */
export interface Spot extends Place {
  readonly sigmaMm: number;
}

/** How edges fall off: what is known of it beforehand is little, so several ways are tried. */
export interface Rim {
  /** Where it has fallen to about a third. */
  readonly reachMm: number;
  /** Near two edges, at a corner: both losses added, one on what the other left, or only that of the nearer edge. */
  readonly corners: 'added' | 'one after the other' | 'nearest';
  /** Steepest at the very edge and never quite gone, or gone at twice the reach. */
  readonly profile: 'exponential' | 'ending';
}

/** Which terms a field is made of, in the order of its coefficients: level, tilts, rim, spots. */
export interface Shape {
  readonly tiltsAcross: boolean;
  readonly tiltsAlong: boolean;
  readonly rim: Rim | null;
  readonly spots: readonly Spot[];
}

export type TermName = 'level' | 'across' | 'along' | 'rim' | `spot ${number}`;

export const termNames = (shape: Shape): TermName[] => [
  'level',
  ...(shape.tiltsAcross ? (['across'] as const) : []),
  ...(shape.tiltsAlong ? (['along'] as const) : []),
  ...(shape.rim === null ? [] : (['rim'] as const)),
  ...shape.spots.map((_, i): TermName => `spot ${i}`),
];

/**
 * Places of a field → rows of a linear fit. The rim is scaled to be 0 in the middle and 1 on the mean of the outermost
 * places, so that its coefficient is how far the edges are behind the middle.
 */
export function rowsOf(shape: Shape, field: Field, outermost: readonly Place[]): (place: Place) => number[] {
  const { rim } = shape;
  const raw = rim === null ? () => 0 : (place: Place) => rimAt(rim, place, field);
  const middle = raw({ across: 0.5, along: 0.5 });
  const edge = outermost.reduce((sum, place) => sum + raw(place), 0) / Math.max(1, outermost.length);
  return (place) => [
    1,
    ...(shape.tiltsAcross ? [2 * place.across - 1] : []),
    ...(shape.tiltsAlong ? [2 * place.along - 1] : []),
    ...(rim === null ? [] : [(raw(place) - middle) / (edge - middle)]),
    ...shape.spots.map((spot) => bell(spot, place, field)),
  ];
}

function rimAt(rim: Rim, { across, along }: Place, { widthMm, depthMm }: Field): number {
  const losses = [across * widthMm, (1 - across) * widthMm, along * depthMm, (1 - along) * depthMm].map(
    (mm) => {
      const far = mm / rim.reachMm;
      return rim.profile === 'exponential' ? Math.exp(-far) : Math.max(0, 1 - far / 2) ** 2;
    },
  );
  if (rim.corners === 'added') return losses.reduce((sum, loss) => sum + loss, 0);
  if (rim.corners === 'nearest') return Math.max(...losses);
  return 1 - losses.reduce((left, loss) => left * (1 - loss), 1);
}

export function bell(spot: Spot, place: Place, { widthMm, depthMm }: Field): number {
  const x = (place.across - spot.across) * widthMm;
  const y = (place.along - spot.along) * depthMm;
  return Math.exp(-(x * x + y * y) / (2 * spot.sigmaMm ** 2));
}

/** Those in the first or last column or row. */
export function outermostOf(values: readonly PlaceValue[]): PlaceValue[] {
  const acrosses = values.map(({ across }) => across);
  const alongs = values.map(({ along }) => along);
  const [left, right] = [Math.min(...acrosses), Math.max(...acrosses)];
  const [back, front] = [Math.min(...alongs), Math.max(...alongs)];
  return values.filter(
    ({ across, along }) => across === left || across === right || along === back || along === front,
  );
}
