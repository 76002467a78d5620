import { builtinProfile, type IccProfile, parseProfile } from '#craft/icc';
import type { ArtworkFacts } from '../types.js';
import { genericCmykProfile } from './generic-cmyk.js';

/** The profile that says how the artwork's numbers look: its own, or the one assumed for it. */
export async function sourceProfile(facts: ArtworkFacts): Promise<IccProfile> {
  if (facts.icc !== null) return parseProfile(facts.icc);
  if (facts.assumed === 'generic-cmyk') return parseProfile(await genericCmykProfile());
  return builtinProfile(facts.assumed === 'grey-srgb' ? 'grey-srgb' : 'srgb');
}
