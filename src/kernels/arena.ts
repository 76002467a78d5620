import type { DeviceLink } from './link-shape.js';
import { applyLinkPlain } from './plain.js';
import type { ArenaOptions, Kernel, KernelArena, KernelKind } from './types.js';
import { wasm, wasmPageBytes } from './wasm.js';

interface PlainArena extends KernelArena {
  readonly link: DeviceLink;
}

/** Lay a link's tables and the workers' pixel slots into one shared memory. */
export function createArena(link: DeviceLink, options: ArenaOptions): KernelArena {
  const { bits, slots, slotPixels } = options;
  const sampleBytes = bits / 8;
  const inputBytes = roundUp(slotPixels * link.inputChannels * sampleBytes);
  const outputBytes = roundUp(slotPixels * 3 * sampleBytes);
  const pages = Math.ceil((slots * (inputBytes + outputBytes)) / wasmPageBytes);
  const arena: PlainArena = {
    memory: new wasm.Memory({ initial: pages, maximum: pages, shared: true }),
    module: options.module,
    kind: kindOf(link),
    bits,
    inputChannels: link.inputChannels,
    slots,
    slotPixels,
    layout: { slotsAt: 0, inputBytes, outputBytes },
    link,
  };
  return arena;
}

/** Take one slot of an arena, in the thread that will run it. */
export function attachKernel(arena: KernelArena, slot: number): Kernel {
  const { link } = arena as PlainArena;
  const { slotsAt, inputBytes, outputBytes } = arena.layout as { [name: string]: number };
  const at = slotsAt! + slot * (inputBytes! + outputBytes!);
  const samples = (from: number, length: number) =>
    arena.bits === 8
      ? new Uint8Array(arena.memory.buffer, from, length)
      : new Uint16Array(arena.memory.buffer, from, length);
  const input = samples(at, arena.slotPixels * arena.inputChannels);
  const output = samples(at + inputBytes!, arena.slotPixels * 3);
  return {
    input,
    output,
    run: (pixels, runOptions) => applyLinkPlain(link, input, output, pixels, arena.bits, runOptions),
  };
}

export function kindOf(link: DeviceLink): KernelKind {
  if (link.kind !== 'grid') return link.kind;
  return link.inputChannels === 1 ? 'grey' : link.inputChannels === 3 ? 'rgb' : 'cmyk';
}

function roundUp(bytes: number): number {
  return Math.ceil(bytes / 64) * 64;
}
