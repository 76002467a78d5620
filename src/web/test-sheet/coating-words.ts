import type { Blank } from '#contract';

/** The coating decides which blank may stand in for a curved one. */
export const coatingWords = (blank: Blank): string =>
  blank.coating.kind === 'polymer'
    ? 'clear polyester coat'
    : blank.coating.kind === 'fibre'
      ? 'polyester cloth'
      : 'no coating that holds dye';
