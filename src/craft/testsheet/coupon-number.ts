/** Coupons of one ladder are numbered from 1 to this. */
export const mostCoupons = 16;
/** Cells along a side of the square that says a coupon's number. */
export const numberCells = 4;

const cellCount = numberCells ** 2;

/**
 * The number as 16 cells, row by row, true = ink. The linear part of the first-order Reed–Muller code RM(1, 4)
 * (Reed, IRE Trans. Inf. Theory 4, 1954): any two numbers differ in eight cells, so three misread ones are mended. A
 * bent function (Rothaus, J. Comb. Theory A 20, 1976) is added so that each has six or ten dark cells and bare
 * ground or a blot is none.
 *
 * @param number 1 to 16
 */
export function numberWord(number: number): boolean[] {
  const n = number - 1;
  return Array.from({ length: cellCount }, (_, i) => {
    const bit = (k: number): number => (i >> k) & 1;
    const linear = bit(0) * (n & 1) + bit(1) * ((n >> 1) & 1) + bit(2) * ((n >> 2) & 1) + bit(3) * (n >> 3);
    return (linear + bit(0) * bit(1) + bit(2) * bit(3)) % 2 === 1;
  });
}

/** How far the likeliest number must stand out: of two numbers 16 cells with one in four misread still tell. */
const leastLikeness = 0.6;
const leastLead = 0.25;

/**
 * The number whose cells fit best.
 * @param darkness of the 16 cells, any scale, larger is darker
 * @returns null when none stands out
 */
export function numberOfCells(darkness: readonly number[]): number | null {
  if (darkness.length !== cellCount || !darkness.every(Number.isFinite)) return null;
  const scores = Array.from({ length: mostCoupons }, (_, n) => likeness(numberWord(n + 1), darkness));
  const ranked = scores.map((score, n) => ({ score, number: n + 1 })).sort((a, b) => b.score - a.score);
  const [first, second] = [ranked[0]!, ranked[1]!];
  return first.score >= leastLikeness && first.score - second.score >= leastLead ? first.number : null;
}

/** Pearson's correlation of cells and darkness. */
function likeness(word: readonly boolean[], darkness: readonly number[]): number {
  const ink = word.map((on) => (on ? 1 : 0));
  const meanInk = ink.reduce<number>((sum, v) => sum + v, 0) / cellCount;
  const meanDark = darkness.reduce((sum, v) => sum + v, 0) / cellCount;
  let both = 0;
  let inks = 0;
  let darks = 0;
  for (let i = 0; i < cellCount; i += 1) {
    both += (ink[i]! - meanInk) * (darkness[i]! - meanDark);
    inks += (ink[i]! - meanInk) ** 2;
    darks += (darkness[i]! - meanDark) ** 2;
  }
  return darks > 0 ? both / Math.sqrt(inks * darks) : 0;
}
