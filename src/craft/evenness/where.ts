import type { Place, Sides } from './types.js';

const standing: Sides = { back: 'back', front: 'front' };

/** 'back left', 'front', 'middle': in thirds, as one stands before the press; of a wrap 'top left'. */
export function whereOn({ across, along }: Place, { back, front }: Sides = standing): string {
  const words = [third(along, back, front), third(across, 'left', 'right')].filter((word) => word !== '');
  return words.length === 0 ? 'middle' : words.join(' ');
}

const third = (at: number, low: string, high: string): string => (at < 1 / 3 ? low : at > 2 / 3 ? high : '');

/** 'in the middle', 'at the back left' */
export function atPlace(place: Place, sides?: Sides): string {
  const where = whereOn(place, sides);
  return where === 'middle' ? 'in the middle' : `at the ${where}`;
}

/** Of a mug press, whose heater is the wrap laid flat. */
export const wrapSides: Sides = { back: 'top', front: 'bottom' };

/** The corner or side towards which a value rises: 1 or 0 at an end, a half where it hardly changes that way. */
export function towards(risesAcross: number, risesAlong: number): Place {
  // Within 22.5° of an axis it is that side; otherwise a corner.
  const narrow = Math.tan(Math.PI / 8);
  const [a, b] = [Math.abs(risesAcross), Math.abs(risesAlong)];
  const end = (rises: number, isSmall: boolean): number => (isSmall ? 0.5 : rises > 0 ? 1 : 0);
  return { across: end(risesAcross, a < narrow * b), along: end(risesAlong, b < narrow * a) };
}

export const opposite = ({ across, along }: Place): Place => ({ across: 1 - across, along: 1 - along });
