import { Laying, type Params, roundToLine } from './laying.js';
import type { DeviceLink, GridLink, ShaperLink } from './link-shape.js';
import { layCmyk8, layGrey8, layRgb8, layShaper8 } from './tables8.js';
import { layGrey16, layGrid16, layShaper16 } from './tables16.js';
import type { ArenaOptions, Kernel, KernelArena, KernelKind, RunOptions } from './types.js';
import { type WasmModule, wasm, wasmPageBytes } from './wasm.js';

/** What the module's `convert` switches on; 16-bit loops come one after their 8-bit brothers. */
const loopNumbers: Readonly<Record<KernelKind, number>> = {
  identity: 0,
  shaper: 2,
  grey: 4,
  rgb: 6,
  cmyk: 8,
};

/** Room for the last few pixels of a run, beside each slot. */
const scratchBytes = 192;

/** Single precision counts nodes exactly up to here (`assembly/parts/curve.ts`). */
const mostNodes = 2 ** 22;

/**
 * Lay a link's tables and the workers' pixel slots into one shared memory. Do it once a job, then post the arena to
 * the workers; each calls `attachKernel` with its own slot.
 *
 * @throws RangeError when a link's tables contradict its own numbers or the memory would pass 4 GiB
 */
export function createArena(link: DeviceLink, options: ArenaOptions): KernelArena {
  const { bits, slots, slotPixels } = options;
  if (!(Number.isInteger(slots) && slots > 0 && Number.isInteger(slotPixels) && slotPixels > 0)) {
    throw new RangeError('An arena needs at least one slot of at least one pixel');
  }
  if (link.kind === 'grid') checkGrid(link);
  if (link.kind === 'shaper') checkShaper(link);
  const laying = new Laying();
  const params = layParams(link, bits, laying);
  const paramsAt = params ? laying.place(params.words) : 0;
  const slotsAt = laying.end;
  const inputBytes = roundToLine(slotPixels * link.inputChannels * (bits / 8));
  const outputBytes = roundToLine(slotPixels * 3 * (bits / 8));
  const slotBytes = inputBytes + outputBytes + scratchBytes;
  const pages = Math.ceil((slotsAt + slots * slotBytes) / wasmPageBytes);
  if (pages > 65536) throw new RangeError('The pixel slots asked for do not fit in 4 GiB');

  const memory = new wasm.Memory({ initial: pages, maximum: pages, shared: true });
  laying.writeTo(memory.buffer);
  return {
    memory,
    module: compiled(options.module),
    kind: kindOf(link),
    bits,
    inputChannels: link.inputChannels,
    slots,
    slotPixels,
    layout: { paramsAt, slotsAt, slotBytes, outputFrom: inputBytes, scratchFrom: inputBytes + outputBytes },
  };
}

/**
 * Take one slot of an arena, in the thread that will run it. Instantiates at once (the module is already compiled).
 *
 * @throws RangeError when there is no such slot; `run` throws it when there are more pixels than the slot holds
 */
export function attachKernel(arena: KernelArena, slot: number): Kernel {
  if (!(Number.isInteger(slot) && slot >= 0 && slot < arena.slots)) {
    throw new RangeError(`There is no slot ${slot}: the arena has ${arena.slots}`);
  }
  const { bits, inputChannels, slotPixels } = arena;
  const { paramsAt, slotsAt, slotBytes, outputFrom, scratchFrom } = arena.layout;
  const instance = new wasm.Instance(arena.module, { env: { memory: arena.memory } });
  const { convert } = instance.exports as { convert: Convert };
  const inputAt = slotsAt + slot * slotBytes;
  const outputAt = inputAt + outputFrom;
  const samples = (from: number, length: number) =>
    bits === 8
      ? new Uint8Array(arena.memory.buffer, from, length)
      : new Uint16Array(arena.memory.buffer, from, length);
  const loop = loopNumbers[arena.kind] + (bits === 16 ? 1 : 0);
  const sampleBytes = bits / 8;

  return {
    input: samples(inputAt, slotPixels * inputChannels),
    output: samples(outputAt, slotPixels * 3),
    run(pixels: number, options: RunOptions = {}): void {
      if (!(Number.isInteger(pixels) && pixels >= 0 && pixels <= slotPixels)) {
        throw new RangeError(`A run of ${pixels} pixels does not fit a slot of ${slotPixels}`);
      }
      convert(
        loop,
        paramsAt,
        inputAt,
        outputAt,
        pixels,
        inputChannels * sampleBytes,
        3 * sampleBytes,
        options.flip ? 1 : 0,
        inputAt + scratchFrom,
      );
    },
  };
}

/** `convert` of `assembly/pixels.ts`. */
type Convert = (
  loop: number,
  params: number,
  input: number,
  output: number,
  pixels: number,
  inputBytes: number,
  outputBytes: number,
  flip: number,
  scratch: number,
) => void;

function layParams(link: DeviceLink, bits: 8 | 16, laying: Laying): Params | null {
  if (link.kind === 'identity') return null;
  if (link.kind === 'shaper') return (bits === 8 ? layShaper8 : layShaper16)(link, laying);
  if (link.inputChannels === 1) return (bits === 8 ? layGrey8 : layGrey16)(link, laying);
  if (bits === 16) return layGrid16(link, laying);
  return (link.inputChannels === 3 ? layRgb8 : layCmyk8)(link, laying);
}

function kindOf(link: DeviceLink): KernelKind {
  if (link.kind !== 'grid') return link.kind;
  return link.inputChannels === 1 ? 'grey' : link.inputChannels === 3 ? 'rgb' : 'cmyk';
}

/** A wrong table would make the loops read past it, so it is refused before anything is laid out. */
function checkGrid(link: GridLink): void {
  const { gridPoints, inputChannels, inputCurves, table } = link;
  const nodes = gridPoints ** inputChannels;
  const stride = gridPoints ** 2 * 8;
  if (!(Number.isInteger(gridPoints) && gridPoints >= 2) || table.length !== nodes * 3) {
    throw new RangeError(`A grid of ${gridPoints} points does not have ${table.length} table values`);
  }
  if (nodes > mostNodes || (inputChannels > 1 && stride >= 2 ** 17)) {
    throw new RangeError(
      `A grid of ${gridPoints} points in ${inputChannels} channels is too fine for the kernels`,
    );
  }
  if (inputCurves && (inputCurves.length !== inputChannels || inputCurves.some((c) => c.length === 0))) {
    throw new RangeError('A grid has as many input curves as channels, each with at least one sample');
  }
}

function checkShaper({ inputCurves, matrix, outputCurves }: ShaperLink): void {
  if (matrix.length !== 9 || [...inputCurves, ...outputCurves].some((curve) => curve.length === 0)) {
    throw new RangeError('A shaper has nine matrix values and curves with at least one sample each');
  }
}

function compiled(module: WasmModule | Uint8Array): WasmModule {
  return module instanceof Uint8Array ? new wasm.Module(module) : module;
}
