import { Problem } from '#craft/problem';

/** A profile that cannot be trusted: says what is wrong with it. */
export function brokenProfile(what: string, where?: string): Problem {
  return new Problem('profile.broken', `The ICC profile is broken: ${what}.`, {
    remedy: 'Export the profile again, or get a sound copy from where it came from.',
    ...(where === undefined ? {} : { where }),
  });
}

/** A sound profile of a kind that this work cannot use. */
export function unsupportedProfile(what: string, remedy: string): Problem {
  return new Problem('profile.unsupported', what, { remedy });
}
