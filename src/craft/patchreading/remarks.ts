import type { PatchReading, PatchWarning } from './types.js';

const words: Readonly<Record<PatchWarning, { readonly one: string; readonly many: string; what: string }>> = {
  clipped: {
    one: 'patch is',
    many: 'patches are',
    what: 'lighter than the scan can hold; turn the scanner’s brightness and automatic correction off, or expose less, and read again',
  },
  'odd-light': {
    one: 'patch lies',
    many: 'patches lie',
    what: 'under a glint or a shadow and will not be used; read again in even light, or scan',
  },
  uneven: {
    one: 'patch is',
    many: 'patches are',
    what: 'not the same all over and will not be used; look for dust, creases or a glint there',
  },
  specks: {
    one: 'patch had',
    many: 'patches had',
    what: 'much dust or threads, which were left out; clean the glass and the piece if there are many',
  },
  'unlike-its-likes': {
    one: 'patch came',
    many: 'patches came',
    what: 'out unlike the same colour elsewhere and will not be used; look for a fault of print or press there',
  },
  'few-pixels': {
    one: 'patch is',
    many: 'patches are',
    what: 'small in the picture; scan at 300 ppi',
  },
  'too-dark': {
    one: 'patch shows',
    many: 'patches show',
    what: 'no light at all; turn the scanner’s contrast and automatic correction off',
  },
};

const order: readonly PatchWarning[] = [
  'clipped',
  'odd-light',
  'uneven',
  'unlike-its-likes',
  'too-dark',
  'few-pixels',
  'specks',
];

/** Warnings whose patches are not to be relied on. */
export const spoiling: ReadonlySet<PatchWarning> = new Set<PatchWarning>([
  'clipped',
  'odd-light',
  'uneven',
  'unlike-its-likes',
]);

/** One sentence for each kind of warning, with how many patches it touches. */
export function warningSentences(patches: readonly PatchReading[]): string[] {
  return order.flatMap((warning) => {
    const count = patches.filter(({ warnings }) => warnings.includes(warning)).length;
    const { one, many, what } = words[warning];
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many} ${what}.`];
  });
}
