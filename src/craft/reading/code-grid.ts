import { qrModules } from '#craft/sheet';
import { fitHomography, mapPoint, type PlaneMap, type Point } from './plane.js';
import { type GreyPicture, greyAt } from './refine-square.js';

const n = qrModules;

/**
 * Modules whose colour is the same in every QR code of version 2 (ISO/IEC 18004, 6.3): the three finder patterns
 * with their white rims, the timing rows, the alignment pattern and the one dark module. 1 dark, −1 light, 0 data.
 */
export const codeTemplate: readonly number[] = makeTemplate();

function makeTemplate(): number[] {
  const template = Array.from({ length: n * n }, () => 0);
  const put = (row: number, column: number, dark: boolean): void => {
    if (row >= 0 && column >= 0 && row < n && column < n) template[row * n + column] = dark ? 1 : -1;
  };
  for (let i = 8; i < n - 8; i += 1) {
    put(6, i, i % 2 === 0);
    put(i, 6, i % 2 === 0);
  }
  const rings = (row: number, column: number, reach: number, isDark: (ring: number) => boolean): void => {
    for (let j = -reach; j <= reach; j += 1) {
      for (let i = -reach; i <= reach; i += 1)
        put(row + j, column + i, isDark(Math.max(Math.abs(i), Math.abs(j))));
    }
  };
  for (const [row, column] of [
    [3, 3],
    [3, n - 4],
    [n - 4, 3],
  ] as const) {
    rings(row, column, 4, (ring) => ring !== 2 && ring !== 4);
  }
  rings(n - 7, n - 7, 2, (ring) => ring !== 1);
  put(n - 8, 8, true);
  return template;
}

/** Share of the known modules that must be read right before the rest is believed. */
const leastAgreement = 0.85;
/** How much of the neighbours' grey is taken away again: in a coarse picture they run into each other. */
const sharpenings = [0, 0.1, 0.2, 0.3, 0.4] as const;

/**
 * The modules of a code, row by row, true = dark, when its place is roughly known. The corners are moved until the
 * known modules fit best, so that a place known only from a marker beside it is enough.
 *
 * @param corners TL, TR, BR, BL of the code in the picture.
 * @returns what the modules may be, likeliest first; nothing when it does not look like a code.
 */
export function readCodeGrid(picture: GreyPicture, corners: readonly Point[]): boolean[][] {
  const side = Math.hypot(corners[0]!.x - corners[2]!.x, corners[0]!.y - corners[2]!.y) / (n * Math.SQRT2);
  let best = corners.map(({ x, y }) => ({ x, y }));
  let score = contrast(picture, best);
  for (const step of [2, 1, 0.5, 0.25, 0.12]) {
    for (let round = 0; round < 4; round += 1) {
      const before = score;
      for (const move of moves) {
        for (const sign of [step * side, -step * side]) {
          const moved = best.map(({ x, y }, i) => ({
            x: x + sign * move[2 * i]!,
            y: y + sign * move[2 * i + 1]!,
          }));
          const now = contrast(picture, moved);
          if (now > score) {
            score = now;
            best = moved;
          }
        }
      }
      if (score === before) break;
    }
  }
  return readingsAt(picture, best);
}

/** All corners together, then each alone: x0 y0 x1 y1 x2 y2 x3 y3. */
const moves: readonly (readonly number[])[] = [
  [1, 0, 1, 0, 1, 0, 1, 0],
  [0, 1, 0, 1, 0, 1, 0, 1],
  [0, 0, 1, 0, 1, 0, 0, 0],
  [0, 0, 0, 0, 0, 1, 0, 1],
  ...Array.from({ length: 8 }, (_, k) => Array.from({ length: 8 }, (__, i) => (i === k ? 1 : 0))),
];

function mapOf(corners: readonly Point[]): PlaneMap | null {
  const square = [
    { x: 0, y: 0 },
    { x: n, y: 0 },
    { x: n, y: n },
    { x: 0, y: n },
  ];
  return fitHomography(square.map((from, i) => ({ from, to: corners[i]! })));
}

/** How much darker the modules known as dark are than those known as light, grey levels. */
function contrast(picture: GreyPicture, corners: readonly Point[]): number {
  const map = mapOf(corners);
  if (!map) return Number.NEGATIVE_INFINITY;
  let dark = 0;
  let light = 0;
  let darks = 0;
  let lights = 0;
  for (let i = 0; i < n * n; i += 1) {
    const known = codeTemplate[i]!;
    if (known === 0) continue;
    const { x, y } = mapPoint(map, { x: (i % n) + 0.5, y: Math.floor(i / n) + 0.5 });
    const grey = greyAt(picture, x, y);
    if (known > 0) {
      dark += grey;
      darks += 1;
    } else {
      light += grey;
      lights += 1;
    }
  }
  return light / lights - dark / darks;
}

function readingsAt(picture: GreyPicture, corners: readonly Point[]): boolean[][] {
  const map = mapOf(corners);
  if (!map) return [];
  const spots = [-0.2, 0, 0.2];
  const greys = Array.from({ length: n * n }, (_, i) => {
    let sum = 0;
    for (const dx of spots) {
      for (const dy of spots) {
        const { x, y } = mapPoint(map, { x: (i % n) + 0.5 + dx, y: Math.floor(i / n) + 0.5 + dy });
        sum += greyAt(picture, x, y);
      }
    }
    return sum / spots.length ** 2;
  });
  return sharpenings
    .map((amount) => {
      const sharp = greys.map((grey, i) => grey + amount * (grey - neighbours(greys, i)));
      const cells = sharp.map((grey, i) => grey < threshold(sharp, i));
      return { cells, agreement: agreementOf(cells) };
    })
    .filter(({ agreement }) => agreement >= leastAgreement)
    .sort((one, other) => other.agreement - one.agreement)
    .map(({ cells }) => cells);
}

/** The own grey plus the differences to the four neighbours; outside the code nothing differs. */
function neighbours(greys: readonly number[], at: number): number {
  const row = Math.floor(at / n);
  const column = at % n;
  const own = greys[at]!;
  const near = [
    column > 0 ? greys[at - 1]! : own,
    column < n - 1 ? greys[at + 1]! : own,
    row > 0 ? greys[at - n]! : own,
    row < n - 1 ? greys[at + n]! : own,
  ];
  return near.reduce((sum, grey) => sum + grey - own, own);
}

function agreementOf(cells: readonly boolean[]): number {
  let right = 0;
  let known = 0;
  codeTemplate.forEach((value, i) => {
    if (value === 0) return;
    known += 1;
    if (cells[i] === value > 0) right += 1;
  });
  return right / known;
}

/** Half-way between the known dark and light modules, the near ones counting most: light falls off over a code. */
function threshold(greys: readonly number[], at: number): number {
  const sums = { dark: 0, darkWeight: 0, light: 0, lightWeight: 0 };
  for (let i = 0; i < greys.length; i += 1) {
    const known = codeTemplate[i]!;
    if (known === 0) continue;
    const distance2 = ((i % n) - (at % n)) ** 2 + (Math.floor(i / n) - Math.floor(at / n)) ** 2;
    const weight = 1 / (distance2 + 40);
    if (known > 0) {
      sums.dark += weight * greys[i]!;
      sums.darkWeight += weight;
    } else {
      sums.light += weight * greys[i]!;
      sums.lightWeight += weight;
    }
  }
  return (sums.dark / sums.darkWeight + sums.light / sums.lightWeight) / 2;
}
