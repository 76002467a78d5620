import type { ArtworkFacts, ProbeLimits } from '../types.js';

export async function probeArtwork(_path: string, _limits: ProbeLimits = {}): Promise<ArtworkFacts> {
  throw new Error('not yet');
}
