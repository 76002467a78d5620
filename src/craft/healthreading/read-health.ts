import { median } from '#craft/numerics';
import type { SampledPicture } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { mapPoint, type PlaneMap, type SheetPose } from '#craft/reading';
import type { HealthLayout, HealthSolid } from '#craft/testsheet';
import { channelAt, channelOf, scaleAt } from './channel.js';
import { feedError } from './feed-error.js';
import { readCombs } from './read-combs.js';
import { readGrid } from './read-grid.js';
import { readLadder } from './read-ladder.js';
import { readSlant } from './read-slant.js';
import { readTint } from './read-tint.js';
import { register } from './register.js';
import type { HealthReading, InkHealth } from './types.js';

export interface HealthOptions {
  /** How far the paper is fed between two passes, if known. */
  readonly passHeightMm?: number | undefined;
  /** The scanner's lengths along its picture's height against its width, percent, if known. */
  readonly scannerPercent?: number | undefined;
}

const leastPixelsPerMm = 5;

/**
 * A health sheet in one scan. What the picture is too coarse or too soft for is said part by part.
 * @throws Problem `scan.unclear` when it is hardly a scan, `scan.wrong-sheet` when the squares are not where they should be
 */
export function readHealth(
  picture: SampledPicture,
  layout: HealthLayout,
  pose: SheetPose,
  options: HealthOptions = {},
): HealthReading {
  const middle = { x: layout.widthMm / 2, y: layout.heightMm / 2 };
  const about = scaleAt(pose.toPicture, middle);
  const pixelsPerMm = Math.sqrt(about.across * about.along);
  if (!(pixelsPerMm >= leastPixelsPerMm)) {
    throw new Problem(
      'scan.unclear',
      `The picture shows only ${pixelsPerMm.toFixed(1)} pixels a millimetre.`,
      {
        remedy: 'Scan the health sheet at 600 ppi; 300 ppi tells a part of it.',
      },
    );
  }
  const registered = register(picture, pose.toPicture, layout.registration);
  if (!registered || registered.found < 0.6 * layout.registration.length) {
    throw new Problem(
      'scan.wrong-sheet',
      'The squares round the sheet are not where this health sheet has them.',
      {
        remedy: 'Show the health sheet itself, whole and flat; or choose the sheet that this is.',
      },
    );
  }
  const { toPicture: map, lengths } = registered;
  const solids = layout.solids.map((solid) => readSolid(picture, map, solid));
  const inks = layout.ladders.map((ladder): InkHealth => {
    const { ink } = ladder;
    const tint = readTint(picture, map, layout.tints.find((one) => one.ink === ink)!, options.passHeightMm);
    const slant = layout.slants.find((one) => one.ink === ink)!;
    const solid = solids[layout.solids.findIndex((one) => one.ink === ink)]!;
    return {
      ink,
      ladder: readLadder(picture, map, ladder),
      ...tint,
      sharpness: readSlant(picture, map, slant),
      solidDensity: solid.isMeasured
        ? { isMeasured: true, density: solid.density, pinholeShare: solid.pinholeShare }
        : solid,
    };
  });
  const black = solids[layout.solids.findIndex(({ ink }) => ink === 'black')];
  const [ground, dark] = black?.isMeasured ? [black.ground, black.light] : [0, 0];
  const feed = feedError([lengths], options.scannerPercent);
  const surface = pose.seenMirrored ? 'paper' : 'piece';
  return {
    sheetId: layout.sheetId,
    surface: layout.mirrorOnWriting ? surface : 'paper',
    pixelsPerMm,
    inks,
    twoWay: readCombs(picture, map, layout.combs),
    grids: layout.grids.map((grid) => readGrid(picture, map, grid, ground, dark)),
    lengths,
    feed,
    remarks: [
      ...(pixelsPerMm < 18 ? ['Scan at 600 ppi to tell single nozzles with more certainty.'] : []),
      ...(feed.from === 'one-scan'
        ? [
            'Scan the sheet once more, turned by a quarter, to part the printer’s feed from the scanner’s own travel.',
          ]
        : []),
    ],
  };
}

type Solid =
  | { isMeasured: false; because: string }
  | { isMeasured: true; density: number; pinholeShare: number; light: number; ground: number };

/** The middle of a solid against the ground just left of it. */
function readSolid(picture: SampledPicture, map: PlaneMap, { ink, rect }: HealthSolid): Solid {
  const { light, ground } = lightsOf(picture, map, rect, channelOf[ink]);
  const inside = median(light);
  const bare = median(ground);
  if (Number.isNaN(inside + bare))
    return { isMeasured: false, because: 'its solid lies outside the picture' };
  if (!(bare > 1.05 * inside))
    return { isMeasured: false, because: 'its solid is no darker than the ground' };
  const holes = light.filter((v) => v > (inside + bare) / 2).length;
  return {
    isMeasured: true,
    density: Math.log10(bare / Math.max(1e-4, inside)),
    pinholeShare: holes / light.length,
    light: inside,
    ground: bare,
  };
}

function lightsOf(picture: SampledPicture, map: PlaneMap, rect: HealthSolid['rect'], channel: 0 | 1 | 2) {
  const n = 90;
  const at = (u: number, v: number): number => {
    const { x, y } = mapPoint(map, { x: rect.xMm + u * rect.widthMm, y: rect.yMm + v * rect.heightMm });
    return channelAt(picture, channel, x, y);
  };
  const light = Array.from({ length: n * n }, (_, i) =>
    at(0.1 + (0.8 * (i % n)) / (n - 1), 0.1 + (0.8 * Math.floor(i / n)) / (n - 1)),
  );
  // The combs' and tints' own white: 0.7 mm left of the solid.
  const ground = Array.from({ length: n }, (_, i) => at(-0.7 / rect.widthMm, 0.1 + (0.8 * i) / (n - 1)));
  return { light, ground };
}
