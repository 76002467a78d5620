import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { DeviceLink } from '#craft/icc';
import { createArena, type KernelArena, type SampleBits } from '#kernels';

const packageRoot = path.resolve(import.meta.dirname, '../../../..');
const kernelFile = path.join(packageRoot, 'dist/kernels/pixels.wasm');
let bytes: Promise<Uint8Array> | null = null;

/** About what a processor core's own cache holds, in and out together. */
const comfortablePixels = 65_536;

/** One arena for a job: a slot for each worker, each large enough for the widest row. */
export async function makeArena(
  link: DeviceLink,
  bits: SampleBits,
  slots: number,
  widestRow: number,
): Promise<KernelArena> {
  bytes ??= readFile(kernelFile);
  const module = await bytes;
  return createArena(link, { bits, slots, slotPixels: Math.max(comfortablePixels, widestRow), module });
}
