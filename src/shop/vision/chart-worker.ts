import { threadWork } from '#shop/threads';
import { loadOpenCv } from './open-cv.js';
import { type ChartTask, readChartPixels } from './read-chart-pixels.js';

/** A worker thread's whole work: one picture of a colour test sheet. */
export default threadWork(async (task: ChartTask) => {
  const { cv } = await loadOpenCv();
  return readChartPixels(cv, task);
});
