import { open } from 'node:fs/promises';

/** Chunks before the pixels are few; a file with more of them is not followed further. */
const mostChunks = 200;
/** sRGB as code points (ITU-T H.273: primaries 1, transfer 13, matrix 0, full range), as the cICP chunk has them. */
const srgbCodePoints = [1, 13, 0, 1];
/** The gAMA value of sRGB, 1/2.2 times 100 000 (PNG 3rd ed., 11.3.2.2), give or take. */
const srgbGamma = { least: 44_000, most: 47_000 };

/**
 * What a PNG says of its colours beside a profile that can be used, as a remark; null: nothing, or just sRGB. The
 * decoder passes over a profile that is broken or meant for other pixels, and over the newer cICP chunk, in silence.
 */
export async function pngColourRemark(path: string, profileRead: boolean): Promise<string | null> {
  const chunks = await colourChunks(path);
  const codes = chunks.get('cICP');
  if (codes !== undefined && srgbCodePoints.some((code, index) => codes[index] !== code)) {
    return 'It names its colours by a code (cICP) that is not read here: save it with an ICC profile if its colours look wrong.';
  }
  if (profileRead) return null;
  if (chunks.has('iCCP')) {
    return 'Its colour profile is broken or for another kind of pixels, so it is left aside.';
  }
  const gamma = chunks.get('gAMA')?.readUInt32BE(0);
  if (gamma !== undefined && !chunks.has('sRGB') && (gamma < srgbGamma.least || gamma > srgbGamma.most)) {
    return 'It asks for another gamma than sRGB’s, which is not followed here: save it as sRGB if it looks wrong.';
  }
  return null;
}

/** The first bytes of every chunk before the pixels, by name. */
async function colourChunks(path: string): Promise<Map<string, Buffer>> {
  const found = new Map<string, Buffer>();
  const file = await open(path, 'r');
  try {
    let at = 8;
    for (let count = 0; count < mostChunks; count += 1) {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(12), 0, 12, at);
      const name = buffer.toString('latin1', 4, 8);
      if (bytesRead < 12 || name === 'IDAT') break;
      found.set(name, buffer.subarray(8));
      at += 12 + buffer.readUInt32BE(0);
    }
  } finally {
    await file.close();
  }
  return found;
}
