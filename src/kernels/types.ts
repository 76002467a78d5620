import type { DeviceLink } from './link-shape.js';

/** 8 or 16 bits in and the same out; channels interleaved; output is always RGB. */
export type SampleBits = 8 | 16;

/**
 * One shared WebAssembly memory for a job: the link's tables stand in it once, and each worker has a slot of
 * its own for pixels. The object is structured-cloneable, so it can be posted to worker threads as it is.
 */
export interface KernelArena {
  readonly memory: WebAssembly.Memory;
  readonly module: WebAssembly.Module;
  readonly bits: SampleBits;
  readonly inputChannels: 1 | 3 | 4;
  readonly slots: number;
  readonly slotPixels: number;
  /** Where things stand in the memory; the kernel's own business. */
  readonly layout: Readonly<Record<string, number>>;
}

/** A kernel attached to one slot of an arena. Views are over the shared memory: fill `input`, run, read `output`. */
export interface Kernel {
  readonly input: Uint8Array | Uint16Array;
  readonly output: Uint8Array | Uint16Array;
  /** Convert the first `pixels` pixels of `input` to RGB in `output`; `flip` writes them in reverse order. */
  run(pixels: number, options?: { readonly flip?: boolean }): void;
}

export type { DeviceLink };
