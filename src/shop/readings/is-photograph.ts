import sharp from 'sharp';
import { writtenByCamera } from '#shop/vision';

/** Whether the file bears what only cameras write (exposure, focal length). */
export async function isPhotograph(source: string | Uint8Array): Promise<boolean> {
  const input =
    typeof source === 'string' ? source : Buffer.from(source.buffer, source.byteOffset, source.byteLength);
  const { exif } = await sharp(input, { limitInputPixels: false }).metadata();
  return writtenByCamera(exif);
}
