import { loadOpenCv } from './open-cv.js';
import { type ChartAnswer, type ChartTask, readChartPixels } from './read-chart-pixels.js';

/** A worker thread's whole work: one picture of a colour test sheet. */
export default async function readChartInWorker(task: ChartTask): Promise<ChartAnswer> {
  const { cv } = await loadOpenCv();
  return readChartPixels(cv, task);
}
