import type { Point } from '#craft/reading';
import type { Chance } from './chance.js';
import { cutOut, type OnGlass, onTheGlass } from './on-the-glass.js';
import { blurred } from './optics.js';
import { encode, type Picture } from './picture.js';
import { type Transfer, transfer, usualTransfer } from './press-transfer.js';
import { scan } from './scanner.js';

export interface PressedAt {
  readonly platenC: number;
  readonly dwellSeconds: number;
  readonly pressureBar?: number;
}

const bare = [0.92, 0.92, 0.9] as const;
/** What `press-transfer` adds to all light from the surface. */
const surface = 0.005;
const dyes = ['cyan', 'magenta', 'yellow'] as const;

/**
 * A printed sheet, or a part of it, pressed by `press-transfer`: every pixel's dye goes over as the solids' does at that
 * step, and edges are as soft as it says. What lay left on the paper lies right on the piece.
 *
 * @param written device values as linear sRGB, as they leave the program
 */
export function pressedAt(written: Picture, step: PressedAt, how: Transfer = usualTransfer): Picture {
  const { density, edgeUm } = transfer(step, how);
  // Of each dye, what came over at full coat: from its solid's density, surface light taken off.
  const came = dyes.map((name, i) => {
    const { takes } = how.dyes[name];
    return -Math.log10(Math.max(1e-6, 10 ** -density[name] - surface)) / takes[i]!;
  });
  const { width, height, ppi } = written;
  const data = new Float32Array(written.data.length);
  // Few device colours occur: each is worked out once, the last one at hand.
  const known = new Map<number, readonly number[]>();
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const from = 3 * (y * width + x);
      const to = 3 * (y * width + (width - 1 - x));
      const device = [0, 1, 2].map((c) => encode(Math.min(1, Math.max(0, written.data[from + c]!))));
      const code = device.reduce((sum, v) => 256 * sum + Math.round(255 * v), 0);
      let light = known.get(code);
      if (!light) {
        const top = Math.max(...device);
        const amounts = device.map((v, i) => (top - v + (1 - top) * how.black[i as 0]!) * came[i]!);
        light = [0, 1, 2].map((c) => {
          const d = dyes.reduce((sum, name, i) => sum + amounts[i]! * how.dyes[name].takes[c as 0]!, 0);
          return (bare[c]! * (10 ** -d + surface)) / (1 + surface);
        });
        known.set(code, light);
      }
      for (let c = 0; c < 3; c += 1) data[to + c] = light[c]!;
    }
  }
  // 10 to 90 % of a Gaussian's integral is 2.563 of its standard deviations.
  return blurred({ width, height, ppi, data }, ((edgeUm / 2.563 / 1000) * ppi) / 25.4);
}

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
