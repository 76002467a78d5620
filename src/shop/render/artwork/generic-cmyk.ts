/** libvips' own generic CMYK profile, for untagged CMYK artwork. */
export async function genericCmykProfile(): Promise<Uint8Array> {
  throw new Error('not yet');
}
