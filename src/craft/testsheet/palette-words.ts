/**
 * Hue families by Oklab hue, degrees, round the circle. The words are plain ones; those that are also colour names of
 * CSS Color 4 (red, coral, orange, yellow, green, teal, blue, purple, and skyblue, hotpink) lie where these do. `rank`:
 * smaller palettes have the families of lower rank.
 */
export const hueFamilies: readonly { name: string; hueDegrees: number; rank: number }[] = [
  { name: 'rose', hueDegrees: 8, rank: 7 },
  { name: 'red', hueDegrees: 28, rank: 0 },
  { name: 'coral', hueDegrees: 44, rank: 12 },
  { name: 'orange', hueDegrees: 64, rank: 4 },
  { name: 'amber', hueDegrees: 85, rank: 10 },
  { name: 'yellow', hueDegrees: 107, rank: 1 },
  { name: 'lime', hueDegrees: 125, rank: 8 },
  { name: 'green', hueDegrees: 144, rank: 2 },
  { name: 'jade', hueDegrees: 167, rank: 13 },
  { name: 'teal', hueDegrees: 195, rank: 6 },
  { name: 'sky', hueDegrees: 231, rank: 9 },
  { name: 'blue', hueDegrees: 261, rank: 3 },
  { name: 'iris', hueDegrees: 281, rank: 14 },
  { name: 'violet', hueDegrees: 303, rank: 11 },
  { name: 'purple', hueDegrees: 326, rank: 5 },
  { name: 'pink', hueDegrees: 348, rank: 15 },
];

/**
 * Steps within a family, lightest first. `lightness` is L* beside white, given the L* at which the hue is strongest;
 * `strength` the share of the chroma reached there. `rank` as above.
 */
export const shades: readonly {
  word: string;
  rank: number;
  strength: number;
  lightness: (cusp: number) => number;
}[] = [
  { word: 'pale', rank: 3, strength: 0.5, lightness: (cusp) => Math.max(90, cusp + 2) },
  {
    word: 'light',
    rank: 1,
    strength: 0.85,
    lightness: (cusp) => Math.min(90, Math.max(78, (cusp + 92) / 2)),
  },
  { word: 'soft', rank: 4, strength: 0.45, lightness: () => 72 },
  { word: 'bright', rank: 0, strength: 1, lightness: (cusp) => cusp },
  { word: 'dusty', rank: 6, strength: 0.4, lightness: () => 52 },
  { word: 'deep', rank: 2, strength: 1, lightness: (cusp) => Math.max(30, 0.68 * cusp) },
  { word: 'dim', rank: 7, strength: 0.45, lightness: () => 33 },
  { word: 'dark', rank: 5, strength: 0.9, lightness: () => 22 },
];
