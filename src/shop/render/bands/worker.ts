import { move, transferableSymbol, valueSymbol } from 'piscina';
import { exactInBends } from '#craft/icc';
import { attachKernel, type Kernel } from '#kernels';
import { threadWork } from '#shop/threads';
import { turnRows } from '../resample/turn-rows.js';
import type { BandJob, BandTask, EncodedBand } from './band-job.js';
import { composeBand, type KernelsOfJob } from './compose.js';
import { encodeRows } from './encode-band.js';

export const turn = threadWork(turnRows);
export default threadWork(makeBand);

/** Kernels stay attached between the bands of one job. */
let current: { readonly jobId: string; readonly bySlot: Map<number, KernelsOfJob> } | null = null;

/** A worker thread's whole work: one band, from the resampled file to encoded bytes. */
function makeBand(task: BandTask): EncodedBand {
  const { job, slot, top, rows, endsStream } = task;
  const samples = composeBand(job, kernelsFor(job, slot), top, rows);
  const encoded = encodeRows(samples, job.width, job.encoding, endsStream);
  const band: EncodedBand = { ...encoded, bytes: ownBuffer(encoded.bytes), top, rows };
  // Handed over, not copied: the pool unwraps this and the caller gets the band itself.
  return move({ [transferableSymbol]: [band.bytes.buffer], [valueSymbol]: band } as never) as never;
}

function kernelsFor(job: BandJob, slot: number): KernelsOfJob {
  if (current?.jobId !== job.id) current = { jobId: job.id, bySlot: new Map() };
  let kernels = current.bySlot.get(slot);
  if (kernels === undefined) {
    const proof: Kernel | null = job.proof === null ? null : attachKernel(job.proof, slot);
    const mend = job.bentGrid === null ? null : exactInBends(job.bentGrid, job.workBits);
    kernels = { kernel: attachKernel(job.arena, slot), proof, mend };
    current.bySlot.set(slot, kernels);
  }
  return kernels;
}

/** Bytes in a buffer of their own, so that handing it over moves it and no more. */
function ownBuffer(bytes: Uint8Array): Uint8Array {
  return bytes.byteLength === bytes.buffer.byteLength ? bytes : bytes.slice();
}
