import type { ArtworkFacts } from '../types.js';

/**
 * libvips' name for the space the artwork's numbers are already in. Named both as pipeline and as output space
 * (with `ignoreIcc`) no conversion takes place, and the numbers come through as they are; `colour-space.test.ts`
 * holds that for every model and depth. Left out, CMYK would be taken to sRGB and back.
 */
export function nativeSpace(facts: Pick<ArtworkFacts, 'colourModel' | 'bitsPerSample'>): string {
  switch (facts.colourModel) {
    case 'cmyk':
      return 'cmyk';
    case 'grey':
      return facts.bitsPerSample === 16 ? 'grey16' : 'b-w';
    case 'rgb':
      return facts.bitsPerSample === 16 ? 'rgb16' : 'srgb';
  }
}

export function channelsOf(facts: Pick<ArtworkFacts, 'colourModel'>): 1 | 3 | 4 {
  return facts.colourModel === 'grey' ? 1 : facts.colourModel === 'rgb' ? 3 : 4;
}
