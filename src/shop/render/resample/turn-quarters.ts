import { writeFile } from 'node:fs/promises';
import { runTurn } from '../bands/pool.js';
import { throwIfCancelled } from '../cancel.js';
import { type TurnTask, turnedSize } from './turn-rows.js';

/** About how many bytes of turned rows one thread holds. */
const blockBytes = 12_000_000;
const blocksAtOnce = 2;

/** Turn a picture of plain pixels clockwise by quarters on the worker threads, into a new file without a head. */
export async function turnQuarters(
  task: Omit<TurnTask, 'top' | 'rows'>,
  signal: AbortSignal | undefined,
): Promise<{ path: string; dataOffset: number; width: number; height: number }> {
  const { width, height } = turnedSize(task.from.width, task.from.height, task.quarters);
  await writeFile(task.to, new Uint8Array(0));
  const rows = Math.max(1, Math.min(height, Math.floor(blockBytes / (width * task.pixelBytes))));
  let next = 0;
  const lane = async () => {
    while (next < height) {
      throwIfCancelled(signal);
      const top = next;
      next += rows;
      await runTurn({ ...task, top, rows: Math.min(rows, height - top) });
    }
  };
  const lanes = await Promise.allSettled(Array.from({ length: blocksAtOnce }, lane));
  const failed = lanes.find((result) => result.status === 'rejected');
  if (failed !== undefined) throw failed.reason;
  return { path: task.to, dataOffset: 0, width, height };
}
