import { describeProfile, parseProfile } from '#craft/icc';
import type { ArtworkFacts } from '../types.js';

export interface EmbeddedProfile {
  /** Null: none, or none that can be used. */
  readonly icc: Uint8Array | null;
  readonly remark: string | null;
}

const spaceOf: Record<ArtworkFacts['colourModel'], string> = { rgb: 'RGB', grey: 'GRAY', cmyk: 'CMYK' };

/** Take the embedded profile if it is whole and speaks of these pixels; otherwise say why not. */
export function judgeProfile(
  icc: Uint8Array | undefined,
  colourModel: ArtworkFacts['colourModel'],
): EmbeddedProfile {
  if (icc === undefined) return { icc: null, remark: null };
  try {
    const facts = describeProfile(parseProfile(icc));
    if (facts.colourSpace !== spaceOf[colourModel]) {
      return { icc: null, remark: 'Its colour profile is for another kind of pixels, so it is left aside.' };
    }
    if (!facts.canBeSource) {
      return {
        icc: null,
        remark: 'Its colour profile says nothing about how its colours look, so it is left aside.',
      };
    }
    return { icc: new Uint8Array(icc), remark: null };
  } catch {
    return { icc: null, remark: 'Its colour profile is broken, so it is left aside.' };
  }
}
