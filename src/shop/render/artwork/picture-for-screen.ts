/** The artwork as an sRGB PNG (alpha kept) or JPEG no larger than `maxPixels` on its longer side. */
export async function pictureForScreen(
  _artworkPath: string,
  _maxPixels: number,
): Promise<{ bytes: Buffer; mediaType: 'image/png' | 'image/jpeg' }> {
  throw new Error('not yet');
}
