import type { ColourPath, Job, PathCheck, PathStanding } from '#contract';
import { Problem } from '#craft/problem';

export type ColourRoundParts = object;

export class ColourRound {
  constructor(readonly parts: ColourRoundParts) {}

  learn(_request: unknown, _options: object = {}): Promise<ColourPath> {
    return notYet();
  }

  startLearn(_request: unknown): Promise<Job> {
    return notYet();
  }

  byEye(_picks: unknown): Promise<ColourPath> {
    return notYet();
  }

  check(_pathId: string, _readingId: string): Promise<PathCheck> {
    return notYet();
  }

  checks(_pathId: string): Promise<PathCheck[]> {
    return notYet();
  }

  standing(
    _pathId: string,
    _about: { setupId?: string | undefined; blankId?: string | undefined } = {},
  ): Promise<PathStanding> {
    return notYet();
  }
}

function notYet(): never {
  throw new Problem('internal.fault', 'This is still being built.', { remedy: 'Try again later.' });
}
