import type { Point } from '#craft/reading';
import type { Chance } from './chance.js';
import { cutOut, type OnGlass, onTheGlass } from './on-the-glass.js';
import type { Picture } from './picture.js';
import { scan } from './scanner.js';

export { type PressedAt, pressedAt } from './pressed-sheet.js';

/** A coupon cut out along its lines; its corners in the picture of the printed sheet, pixels. */
export function cutCoupon(sheet: Picture, corners: readonly Point[]): Picture {
  const mm = 25.4 / sheet.ppi;
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return cutOut(sheet, {
    xMm: left * mm,
    yMm: top * mm,
    widthMm: (Math.max(...xs) - left) * mm,
    heightMm: (Math.max(...ys) - top) * mm,
  });
}

/** Coupons side by side on a scanner's glass, each turned anyhow, and what the scanner makes of them. */
export function scanOfCoupons(
  pieces: readonly Picture[],
  chance: Chance,
  seed: number,
  { dust = 15, noise = 0.006, columns = 4 }: { dust?: number; noise?: number; columns?: number } = {},
): Picture {
  const { ppi } = pieces[0]!;
  const side = Math.max(...pieces.flatMap(({ width, height }) => [width, height])) * (25.4 / ppi);
  // Turned by 45° a square is √2 as wide.
  const pitch = 1.45 * side + 2;
  const across = Math.min(columns, pieces.length);
  const rows = Math.ceil(pieces.length / across);
  const lying = pieces.map(
    (picture, i): OnGlass => ({
      picture,
      middleXMm: (0.5 + (i % across)) * pitch + chance.between(-1, 1),
      middleYMm: (0.5 + Math.floor(i / across)) * pitch + chance.between(-1, 1),
      turnDegrees: chance.pick([0, 90, 180, 270]) + chance.between(-20, 20),
    }),
  );
  return scan(onTheGlass(lying, across * pitch, rows * pitch, ppi), { ppi, dust, noise, seed });
}
