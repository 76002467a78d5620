import { closePathThreads } from '#shop/paths';
import { closeBenchThreads } from '#shop/press-bench';
import { closeReaderThreads } from '#shop/readers';
import { closeRenderWorkers } from '#shop/render';
import { closeColourThreads } from '#shop/sheets';
import { closeVision } from '#shop/vision';

let openShops = 0;

/** The worker threads are one set for the process; they end with the last shop, so that the program can end at once. */
export function shareThreads(): () => Promise<void> {
  openShops += 1;
  let used = true;
  return async () => {
    if (!used) return;
    used = false;
    openShops -= 1;
    if (openShops === 0) {
      await Promise.all([
        closeRenderWorkers(),
        closeColourThreads(),
        closePathThreads(),
        closeBenchThreads(),
        closeReaderThreads(),
        closeVision(),
      ]);
    }
  };
}
