import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { cornersPng, openTestShop, scratchOf } from '../../tests/shop/fixture.js';

const root = mkdtempSync(path.join(tmpdir(), 'dyewright-small-disk-'));
const disk = path.join(root, 'disk');
mkdirSync(disk);
const mounted = mountSmallDisk();
afterAll(() => {
  if (mounted) execFileSync('umount', [disk]);
  rmSync(root, { recursive: true, force: true });
});

/** Twelve megabytes of memory as a disk; only root on Linux may. */
function mountSmallDisk(): boolean {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=12m', 'tmpfs', disk], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

test.skipIf(!mounted)(
  'on a disk that is really full everything is refused in words, nothing is left, and small work still goes',
  async () => {
    const folder = path.join(disk, 'shop');
    const { shop, faults } = await openTestShop({ folder });
    const noise = await sharp({
      create: {
        width: 2400,
        height: 2000,
        channels: 3,
        background: '#808080',
        noise: { type: 'gaussian', mean: 128, sigma: 60 },
      },
    })
      .tiff({ compression: 'none' })
      .toBuffer();
    expect(noise.length).toBeGreaterThan(13e6);
    await expect(shop.artwork.add(once(noise), 'noise.tif')).rejects.toMatchObject({ code: 'disk.full' });
    expect(scratchOf(folder)).toEqual([]);
    expect(await shop.artwork.list()).toEqual([]);

    const artwork = await shop.artwork.add(once(await cornersPng()), 'corners.png');
    const request = { artworkId: artwork.id, blankId: 'tile-ceramic-152', setupId: 'desktop-a4', ppi: 600 };
    await expect(shop.sheets.make(request, { format: 'tiff', bitsPerSample: 16 })).rejects.toMatchObject({
      code: 'disk.full',
    });
    expect(scratchOf(folder)).toEqual([]);
    expect(await shop.sheets.list()).toEqual([]);

    const small = await shop.sheets.make({ ...request, ppi: 72 }, { format: 'png' });
    expect((await shop.sheets.list()).map((sheet) => sheet.id)).toEqual([small.id]);
    expect(faults).toEqual([]);
    await shop.close();
  },
);
