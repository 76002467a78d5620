import { quantile } from '#craft/numerics';
import { quickRobustSquares } from './quick-squares.js';
import type { Lighting } from './types.js';

/** Two pictures laid over each other, linear light, three a pixel. */
export interface LaidOver {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly artwork: Float32Array;
  readonly photo: Float32Array;
  readonly valid: Uint8Array;
}

const columns = 16;
const rows = 12;
/** Artwork as light as this in every channel is bare coating: natural-log density. */
const whiteDensity = 0.12;
/** Darker than this the camera's own glare and noise speak, not the dye. */
const mostDensity = 3;

interface Cell {
  readonly s: number;
  readonly t: number;
  /** Mean natural-log density of the artwork, and mean log of the photo, a channel. */
  readonly density: readonly number[];
  readonly seen: readonly number[];
  readonly isWhite: boolean;
}

/**
 * Light on the piece, told from the dye in it. In logarithms light adds and fading multiplies: log photo = g − (1 − f)·D,
 * D the artwork's density (Beer–Lambert). Both g and f may slope and bow over the piece, the same for all channels, and
 * have a level for each channel; all are fitted together and robustly, and only g is handed out, so a fade at the
 * corners stays in the picture while a lamp's fall-off goes. Where the artwork has bare white, D = 0 shows g by itself.
 */
export function fitLighting(pair: LaidOver): Lighting {
  const cells = cellsOf(pair);
  if (cells.length < 12) return noLighting;
  const whites = cells.filter(({ isWhite }) => isWhite);
  const quadrants = new Set(whites.map(({ s, t }) => (s > 0 ? 1 : 0) + (t > 0 ? 2 : 0))).size;
  const hasWhite = whites.length >= 0.06 * cells.length && whites.length >= 6 && quadrants >= 3;
  const densities = cells.map(({ density }) => (density[0]! + density[1]! + density[2]!) / 3);
  const range = quantile(densities, 0.9) - quantile(densities, 0.1);
  const isShaped = cells.length >= 40 && (hasWhite || range > 0.7);
  const isDyeFitted = isShaped || range > 0.5;
  const lines: number[][] = [];
  const values: number[] = [];
  for (const { s, t, density, seen } of cells) {
    const shape = isShaped ? [s, t, s * s, s * t, t * t] : [];
    for (let c = 0; c < 3; c += 1) {
      const own = [0, 1, 2].map((k) => (k === c ? 1 : 0));
      const dye = density[c]!;
      const faded = isDyeFitted ? [...own, ...shape].map((v) => v * dye) : [];
      lines.push([...own, ...shape, ...faded]);
      values.push(seen[c]! + dye);
    }
  }
  const fit = quickRobustSquares(
    lines,
    values,
    values.map(() => 1),
    0.01,
  );
  if (!fit) return noLighting;
  const k = Array.from(fit);
  const shape = isShaped ? k.slice(3, 8) : [0, 0, 0, 0, 0];
  return {
    logGain: [0, 1, 2].map((c) => [k[c]!, ...shape]),
    basis: hasWhite ? 'white' : 'pattern',
    isShaped,
    confounded: confounded(hasWhite, isShaped, isDyeFitted),
  };
}

/** Nothing corrected. */
export const noLighting: Lighting = {
  logGain: [0, 1, 2].map(() => [0, 0, 0, 0, 0, 0]),
  basis: 'none',
  isShaped: false,
  confounded: ['Light and dye could not be told apart at all: too little of the piece is in view.'],
};

function confounded(hasWhite: boolean, isShaped: boolean, isDyeFitted: boolean): string[] {
  const overall = 'Yellowing all over the piece looks the same as warm light.';
  if (hasWhite) return [overall];
  return [
    isDyeFitted
      ? 'No bare white is in view, so fading all over is told from exposure only by how dark places compare with light ones.'
      : 'No bare white is in view, so fading all over, or a colour cast, cannot be told from exposure and white balance.',
    ...(isShaped ? [] : ['Fading towards one side or the corners cannot be told from uneven light.']),
    overall,
  ];
}

/** Gain of each channel at a place of the pair, in pixels. */
export function gainAt(
  lighting: Lighting,
  pair: { readonly widthPixels: number; readonly heightPixels: number },
  x: number,
  y: number,
): [number, number, number] {
  const s = (2 * x) / pair.widthPixels - 1;
  const t = (2 * y) / pair.heightPixels - 1;
  const of = (k: readonly number[]): number =>
    Math.exp(k[0]! + k[1]! * s + k[2]! * t + k[3]! * s * s + k[4]! * s * t + k[5]! * t * t);
  const [r, g, b] = lighting.logGain;
  return [of(r!), of(g!), of(b!)];
}

/** Divide the light out of the photo, in place. */
export function divideLighting(pair: LaidOver, lighting: Lighting): void {
  if (lighting.basis === 'none') return;
  const { widthPixels, heightPixels, photo } = pair;
  const step = 16;
  for (let y = 0; y < heightPixels; y += 1) {
    for (let x = 0; x < widthPixels; x += step) {
      // Smooth enough to be straight over so few pixels.
      const here = gainAt(lighting, pair, x + 0.5, y + 0.5);
      const there = gainAt(lighting, pair, x + step + 0.5, y + 0.5);
      const end = Math.min(widthPixels, x + step);
      for (let i = x; i < end; i += 1) {
        const share = (i - x) / step;
        const at = 3 * (y * widthPixels + i);
        for (let c = 0; c < 3; c += 1) {
          photo[at + c] = photo[at + c]! / (here[c]! + (there[c]! - here[c]!) * share);
        }
      }
    }
  }
}

function cellsOf({ widthPixels, heightPixels, artwork, photo, valid }: LaidOver): Cell[] {
  const cells: Cell[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const [x0, x1] = [column, column + 1].map((i) => Math.floor((i * widthPixels) / columns));
      const [y0, y1] = [row, row + 1].map((i) => Math.floor((i * heightPixels) / rows));
      const density = [0, 0, 0];
      const seen = [0, 0, 0];
      let [count, asked] = [0, 0];
      // One pixel in nine is plenty for a mean.
      for (let y = y0! + 1; y < y1!; y += 3) {
        for (let x = x0! + 1; x < x1!; x += 3) {
          asked += 1;
          const i = y * widthPixels + x;
          if (!valid[i]) continue;
          const at = 3 * i;
          const least = Math.min(artwork[at]!, artwork[at + 1]!, artwork[at + 2]!);
          if (least < Math.exp(-mostDensity)) continue;
          count += 1;
          for (let c = 0; c < 3; c += 1) {
            density[c] = density[c]! - Math.log(Math.max(artwork[at + c]!, 0.01));
            seen[c] = seen[c]! + Math.log(Math.max(photo[at + c]!, 0.004));
          }
        }
      }
      if (count < Math.max(8, 0.25 * asked)) continue;
      const means = density.map((v) => v / count);
      cells.push({
        s: (2 * (column + 0.5)) / columns - 1,
        t: (2 * (row + 0.5)) / rows - 1,
        density: means,
        seen: seen.map((v) => v / count),
        isWhite: means.every((v) => v < whiteDensity),
      });
    }
  }
  return cells;
}
