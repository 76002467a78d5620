import { Problem } from '#craft/problem';

/** Passes bytes on and stops with image.too-large once more than `maxBytes` have come. */
export function limitBytes(
  maxBytes: number,
): (source: AsyncIterable<Uint8Array>) => AsyncGenerator<Uint8Array> {
  return async function* limited(source) {
    let bytes = 0;
    for await (const chunk of source) {
      bytes += chunk.byteLength;
      if (bytes > maxBytes) {
        throw new Problem(
          'image.too-large',
          `The file is larger than ${Math.round(maxBytes / 1e6)} MB, the set limit.`,
          {
            remedy: 'Save the picture smaller, or with compression.',
          },
        );
      }
      yield chunk;
    }
  };
}
