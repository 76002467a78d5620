import type { DeviceLink } from './link-shape.js';
import type { WasmMemory, WasmModule } from './wasm.js';

/** 8 or 16 bits in and the same out; channels interleaved; output is always RGB. */
export type SampleBits = 8 | 16;

/** Which loop of the module an arena's tables are laid out for. */
export type KernelKind = 'identity' | 'shaper' | 'grey' | 'rgb' | 'cmyk';

export interface ArenaOptions {
  readonly bits: SampleBits;
  /** How many workers will attach, each to its own slot. */
  readonly slots: number;
  /** The most pixels one `run` converts. */
  readonly slotPixels: number;
  /** The compiled kernels (`dist/kernels/pixels.wasm`), or their bytes, which are then compiled here. */
  readonly module: WasmModule | Uint8Array;
}

/**
 * One shared WebAssembly memory for a job: the link's tables stand in it once, and each worker has a slot of
 * its own for pixels. The object is structured-cloneable, so it can be posted to worker threads as it is.
 */
export interface KernelArena {
  readonly memory: WasmMemory;
  readonly module: WasmModule;
  readonly kind: KernelKind;
  readonly bits: SampleBits;
  readonly inputChannels: 1 | 3 | 4;
  readonly slots: number;
  readonly slotPixels: number;
  /** Where things stand in the memory; the kernel's own business. */
  readonly layout: ArenaLayout;
}

/** Byte addresses and sizes. */
export interface ArenaLayout {
  readonly paramsAt: number;
  readonly slotsAt: number;
  readonly slotBytes: number;
  /** From the start of a slot, where its input stands. */
  readonly outputFrom: number;
  readonly scratchFrom: number;
}

export interface RunOptions {
  /** Write the pixels in reverse order. Sheets do without: they are mirrored once, marks and all, by `shop/render/bands`. */
  readonly flip?: boolean;
}

/** A kernel attached to one slot of an arena. Views are over the shared memory: fill `input`, run, read `output`. */
export interface Kernel {
  /** slotPixels × inputChannels samples. */
  readonly input: Uint8Array | Uint16Array;
  /** slotPixels × 3 samples. Only the first `pixels` × 3 are touched by a run. */
  readonly output: Uint8Array | Uint16Array;
  /** Convert the first `pixels` pixels of `input` to RGB in `output`. */
  run(pixels: number, options?: RunOptions): void;
}

export type { DeviceLink };
