import { Problem } from '#craft/problem';
import type { AlignedPair, FourPlaces } from '#craft/register';
import { registerInThread } from './pool.js';
import { defaultPixelLimit } from './read-chart-picture.js';

export interface RegisterOptions {
  /** Width of the artwork on the piece; without it nothing is told in millimetres. */
  readonly artworkWidthMm?: number | undefined;
  /** Of a round piece: with the artwork's width it says how far round it goes. */
  readonly diameterMm?: number | undefined;
  /** What the piece is; both are tried when not said. */
  readonly surface?: 'flat' | 'cylinder' | undefined;
  /** Corners of the artwork as it reads, top left first and clockwise, in pixels of the upright photo. */
  readonly corners?: FourPlaces | undefined;
  /** Long side of the pair in pixels: 1600 when not said. */
  readonly longSidePixels?: number | undefined;
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

/**
 * A photo of a piece laid over its artwork, in a thread of its own.
 *
 * @param photo a path, or the file's bytes
 * @param artwork the same, as it should read on the piece
 * @throws Problem `photo.unmatched`, `scan.unclear`, `image.*`, `file.missing`, `job.cancelled`
 */
export async function registerPhoto(
  photo: string | Uint8Array,
  artwork: string | Uint8Array,
  options: RegisterOptions = {},
): Promise<AlignedPair> {
  const { signal } = options;
  const stopped = (): Problem =>
    new Problem('job.cancelled', 'The work on the photo was stopped.', {
      remedy: 'Start it again when you like.',
    });
  if (signal?.aborted) throw stopped();
  try {
    return await registerInThread(
      {
        photo,
        artwork,
        artworkWidthMm: options.artworkWidthMm ?? null,
        diameterMm: options.diameterMm ?? null,
        surface: options.surface ?? 'unknown',
        corners: options.corners ?? null,
        longSidePixels: options.longSidePixels ?? 1600,
        pixelLimit: options.pixelLimit ?? defaultPixelLimit,
      },
      signal,
    );
  } catch (error) {
    throw signal?.aborted ? stopped() : error;
  }
}
