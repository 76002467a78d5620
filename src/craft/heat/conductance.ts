import { Problem } from '#craft/problem';

/** W/(m²K) of a resistance; two bodies of one temperature each with nothing between them are refused. */
export function conductance(resistanceM2KPerW: number): number {
  if (resistanceM2KPerW > 0) return 1 / resistanceM2KPerW;
  throw new Problem('press.invalid', 'Two lumped bodies touch with no resistance between them.', {
    remedy: 'Give the joint a contact resistance, or do not lump one of the two.',
  });
}
