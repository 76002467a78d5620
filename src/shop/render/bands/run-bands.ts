import { throwIfCancelled } from '../cancel.js';
import type { BandJob, EncodedBand } from './band-job.js';
import { runBand } from './pool.js';

export interface BandRange {
  readonly top: number;
  readonly rows: number;
  readonly endsStream: boolean;
}

/** About how many bytes of finished pixels one band holds. */
const bandBytes = 1_500_000;

/** Cut rows `from` to `to` into bands; the last one ends its deflate stream. */
export function cutIntoBands(width: number, from: number, to: number, sampleBytes: number): BandRange[] {
  const rows = Math.max(8, Math.min(1024, Math.round(bandBytes / (width * 3 * sampleBytes))));
  const bands: BandRange[] = [];
  for (let top = from; top < to; top += rows) {
    const count = Math.min(rows, to - top);
    bands.push({ top, rows: count, endsStream: top + count === to });
  }
  return bands;
}

/**
 * Have bands made by the worker threads and yield them in order. At most as many run at once as the arena has
 * slots, and few wait to be written, so memory does not grow with the sheet.
 */
export async function* bandsInOrder(
  job: BandJob,
  bands: readonly BandRange[],
  signal?: AbortSignal,
): AsyncGenerator<EncodedBand> {
  const freeSlots = Array.from({ length: job.arena.slots }, (_, slot) => slot);
  const made = new Map<number, Promise<EncodedBand>>();
  const running = new Set<Promise<unknown>>();
  const mostAhead = job.arena.slots * 2 + 1;
  let next = 0;

  const start = () => {
    const slot = freeSlots.pop()!;
    const index = next;
    next += 1;
    const work = runBand({ job, slot, ...bands[index]! }).finally(() => {
      freeSlots.push(slot);
      running.delete(work);
      // A slot is free: go on at once, without waiting for whoever writes.
      if (!stopped) fill();
    });
    work.catch(() => undefined);
    running.add(work);
    made.set(index, work);
  };
  let wanted = 0;
  let stopped = false;
  const fill = () => {
    while (next < bands.length && freeSlots.length > 0 && next - wanted < mostAhead) start();
  };

  try {
    for (; wanted < bands.length; wanted += 1) {
      throwIfCancelled(signal);
      fill();
      const band = await made.get(wanted)!;
      made.delete(wanted);
      yield band;
    }
  } finally {
    stopped = true;
    // The files and the memory that bands read from may go only when none is being made any more.
    await Promise.allSettled([...running]);
  }
}
