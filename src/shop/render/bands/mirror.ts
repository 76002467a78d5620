import type { Samples } from './samples.js';

/**
 * Reverse every row of RGB pixels in place. `compose.ts` mirrors the sheet with it, once and nowhere else, and lays a
 * picture that is looked at through its piece left for right.
 */
export function mirrorRows(band: Samples, width: number, rows: number): void {
  const rowSamples = width * 3;
  for (let row = 0; row < rows; row += 1) {
    let left = row * rowSamples;
    let right = left + rowSamples - 3;
    while (left < right) {
      const r = band[left]!;
      const g = band[left + 1]!;
      const b = band[left + 2]!;
      band[left] = band[right]!;
      band[left + 1] = band[right + 1]!;
      band[left + 2] = band[right + 2]!;
      band[right] = r;
      band[right + 1] = g;
      band[right + 2] = b;
      left += 3;
      right -= 3;
    }
  }
}
