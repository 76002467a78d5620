import { closeSync, openSync, readSync } from 'node:fs';
import type { SampleBits } from '#kernels';
import type { Raster } from '../resample/raster.js';
import type { Samples } from './samples.js';

/** Reads rows of a raster file into a kernel's input, composed onto white and in the kernel's sample size. */
export class RasterReader {
  readonly raster: Raster;
  readonly #fd: number;
  readonly #bits: SampleBits;
  readonly #samplesPerPixel: number;
  #scratch: Uint8Array = new Uint8Array(0);

  constructor(raster: Raster, bits: SampleBits) {
    this.raster = raster;
    this.#bits = bits;
    this.#samplesPerPixel = raster.colourChannels + (raster.hasAlpha ? 1 : 0);
    this.#fd = openSync(raster.path, 'r');
  }

  /** Rows `first`… into `input`, `raster.width` pixels each, without gaps. */
  read(first: number, rows: number, input: Samples): void {
    const { raster } = this;
    const rowBytes = raster.width * this.#samplesPerPixel * (raster.bits / 8);
    const bytes = rows * rowBytes;
    const position = raster.dataOffset + first * rowBytes;
    if (!raster.hasAlpha && raster.bits === this.#bits) {
      this.#readFully(new Uint8Array(input.buffer, input.byteOffset, bytes), position);
      return;
    }
    if (this.#scratch.length < bytes) this.#scratch = new Uint8Array(bytes);
    this.#readFully(this.#scratch.subarray(0, bytes), position);
    const samples =
      raster.bits === 8
        ? this.#scratch.subarray(0, bytes)
        : new Uint16Array(this.#scratch.buffer, 0, bytes / 2);
    const scale = raster.bits === this.#bits ? 1 : this.#bits === 16 ? 257 : 1 / 257;
    if (raster.hasAlpha) composeOntoWhite(samples, raster, input, scale);
    else
      for (let index = 0; index < samples.length; index += 1)
        input[index] = Math.round(samples[index]! * scale);
  }

  close(): void {
    closeSync(this.#fd);
  }

  #readFully(target: Uint8Array, position: number): void {
    let done = 0;
    while (done < target.length) {
      const got = readSync(this.#fd, target, done, target.length - done, position + done);
      if (got === 0) throw new Error('the resampled picture is shorter than it should be');
      done += got;
    }
  }
}

/**
 * There is no white ink: a see-through pixel shows paper. Composed in the artwork's own encoded numbers, as
 * programs that flatten a picture do; white is no ink for CMYK and full value otherwise.
 */
function composeOntoWhite(samples: Samples, raster: Raster, input: Samples, scale: number): void {
  const channels = raster.colourChannels;
  const full = raster.bits === 8 ? 255 : 65535;
  const white = channels === 4 ? 0 : full;
  const pixels = samples.length / (channels + 1);
  let from = 0;
  let to = 0;
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    const alpha = samples[from + channels]! / full;
    for (let channel = 0; channel < channels; channel += 1) {
      const value = white + (samples[from]! - white) * alpha;
      input[to] = (value * scale + 0.5) | 0;
      from += 1;
      to += 1;
    }
    from += 1;
  }
}
