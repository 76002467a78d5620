import { differenceCiede2000 } from 'culori';
import { expect, test } from 'vitest';
import { builtinProfile, encodeProfile, parseProfile, reachTable, reachThresholdDeltaE00 } from '#craft/icc';
import { inventedPrinterProfile } from '#shop/demo';
import { littleCms, refereeConvert } from '../../../tests/fixtures/icc/little-cms.js';
import { summariseReach } from './reach-summary.js';

/** Colours and how many pixels of each; all fall into different bins of the count. */
const painted: readonly (readonly [number, number, number, number])[] = [
  [0, 255, 0, 300],
  [255, 0, 0, 200],
  [0, 0, 255, 120],
  [255, 0, 255, 90],
  [0, 255, 255, 70],
  [255, 255, 0, 50],
  [255, 255, 255, 400],
  [128, 128, 128, 350],
  [196, 150, 130, 250],
  [115, 82, 68, 150],
  [90, 110, 130, 20],
];

/**
 * Wanted and nearest by Little CMS (media-relative, no black moved): the colour itself, and the colour sent through the
 * printer's colorimetric tables and back. Their distance by culori's CIEDE2000.
 */
async function refereeDistances(printer: Uint8Array): Promise<number[]> {
  const lcms = await littleCms();
  const how = { intent: 'relative', blackPointCompensation: false } as const;
  const srgb = encodeProfile(builtinProfile('srgb'));
  const rows = painted.map(([r, g, b]) => [r / 255, g / 255, b / 255]);
  const wanted = refereeConvert(lcms, { source: srgb, destination: 'lab', ...how }, rows);
  const device = refereeConvert(lcms, { source: srgb, destination: printer, ...how }, rows);
  const nearest = refereeConvert(lcms, { source: printer, destination: 'lab', ...how }, device);
  const lab = ([l = 0, a = 0, b = 0]: readonly number[]) => ({ mode: 'lab65', l, a, b }) as const;
  const difference = differenceCiede2000();
  return wanted.map((one, i) => difference(lab(one), lab(nearest[i]!)));
}

test('counts and names the colours that the path cannot reach, as Little CMS and culori tell them', async () => {
  const printer = inventedPrinterProfile();
  const distances = await refereeDistances(printer);
  // The table of distances is a grid of 33 points in float: no colour here lies so near the threshold that it matters.
  for (const distance of distances) expect(Math.abs(distance - reachThresholdDeltaE00)).toBeGreaterThan(0.5);

  const pixels = painted.flatMap(([r, g, b, count]) => Array.from({ length: count }, () => [r, g, b])).flat();
  const table = reachTable({
    source: builtinProfile('srgb'),
    destination: parseProfile(printer),
    intent: 'relative',
    blackPointCompensation: false,
  });
  const summary = summariseReach(
    {
      widthPixels: 100,
      heightPixels: 20,
      source: Uint8Array.from(pixels),
      sourceChannels: 3,
      deviceRgb: new Uint8Array(pixels.length),
    },
    table,
  );

  const beyond = painted
    .map(([r, g, b, count], i) => ({ rgb: [r, g, b], count, distance: distances[i]! }))
    .filter(({ distance }) => distance > reachThresholdDeltaE00)
    .sort((one, other) => other.count - one.count);
  expect(beyond.length).toBeGreaterThan(2);
  expect(beyond.length).toBeLessThan(painted.length);
  expect(summary.share).toBeCloseTo(beyond.reduce((sum, { count }) => sum + count, 0) / 2000, 12);
  const hex = (rgb: readonly number[]) => `#${rgb.map((v) => v.toString(16).padStart(2, '0')).join('')}`;
  expect(summary.colours.map(({ wantedHex }) => wantedHex)).toEqual(
    beyond.slice(0, 6).map(({ rgb }) => hex(rgb)),
  );
  summary.colours.forEach((colour, i) => {
    expect(colour.share).toBeCloseTo(beyond[i]!.count / 2000, 12);
    // The grid's distance at a colour off its nodes is interpolated; these differ by far less than they are large.
    expect(Math.abs(colour.deltaE00 - beyond[i]!.distance)).toBeLessThan(0.5);
    expect(colour.nearestHex).not.toBe(colour.wantedHex);
  });
});
