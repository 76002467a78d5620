import { parentPort, workerData } from 'node:worker_threads';
import { attachKernel, type KernelArena } from '#kernels';

/** One thread's share of a picture, converted when told to. */
interface Start {
  /** Slots as large as the share: the picture stands in the arena and is converted in place. */
  readonly whole: KernelArena;
  /** Small slots: pixels are copied in, converted and copied out, piece by piece. */
  readonly pieces: KernelArena;
  readonly slot: number;
  readonly share: SharedArrayBuffer;
  readonly result: SharedArrayBuffer;
}

export type Task = 'in place' | 'copies' | 'control';

const { whole, pieces, slot, share, result } = workerData as Start;
const inPlace = attachKernel(whole, slot);
const piece = attachKernel(pieces, slot);
const from = new Uint8Array(share);
const to = new Uint8Array(result);
inPlace.input.set(from);
const pixels = from.length / 3;

const tasks: Record<Task, () => void> = {
  'in place': () => inPlace.run(pixels),
  copies: () => {
    for (let at = 0; at < pixels; at += pieces.slotPixels) {
      const count = Math.min(pieces.slotPixels, pixels - at);
      piece.input.set(from.subarray(at * 3, (at + count) * 3));
      piece.run(count);
      to.set(piece.output.subarray(0, count * 3), at * 3);
    }
  },
  // Arithmetic only, no memory: how much of a second core the machine has to give at this moment.
  control: () => {
    let x = 1;
    for (let i = 0; i < pixels * 4; i += 1) x = (Math.imul(x, 1664525) + 1013904223) | 0;
    to[0] = x;
  },
};

parentPort?.on('message', (task: Task) => {
  tasks[task]();
  parentPort?.postMessage('done');
});
