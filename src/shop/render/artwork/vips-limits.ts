import { availableParallelism } from 'node:os';
import sharp from 'sharp';

/**
 * libvips keeps what it has decoded; here every picture is read once and a kept one only costs memory. Two threads
 * resample about as fast as the disk takes the result.
 */
export function limitVips(): void {
  sharp.cache(false);
  sharp.concurrency(Math.min(2, availableParallelism()));
}
