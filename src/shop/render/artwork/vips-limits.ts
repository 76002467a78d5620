import { availableParallelism } from 'node:os';
import sharp from 'sharp';

/**
 * libvips keeps what it has decoded; here every picture is read once and a kept one only costs memory. It gets two
 * threads: those that make the bands want the rest.
 */
export function limitVips(): void {
  sharp.cache(false);
  sharp.concurrency(Math.min(2, availableParallelism()));
}
