import type { ColourSheetOrder } from '#craft/testsheet';
import { threadWork } from '#shop/threads';
import { type OpenedChart, openChartPicture } from './open-chart-picture.js';
import { loadOpenCv } from './open-cv.js';
import { type ChartAnswer, readChartPixels } from './read-chart-pixels.js';

export interface ChartTask {
  /** The same for every task on the same picture. */
  readonly name: string;
  readonly source: string | Uint8Array;
  readonly pixelLimit: number;
  readonly order: ColourSheetOrder | null;
}

/** What the picture is, beside its pixels. */
export type OpenedFacts = Omit<OpenedChart, 'picture'>;
export interface ChartDone {
  readonly answer: ChartAnswer;
  readonly opened: OpenedFacts;
}

/** A picture whose sheet only the shop's records know comes a second time at once, with its order. */
let waiting: { readonly name: string; readonly chart: OpenedChart } | null = null;

/** A worker thread's whole work: one picture of a colour test sheet, from its file. It is too large to be passed about. */
export default threadWork(async ({ name, source, pixelLimit, order }: ChartTask): Promise<ChartDone> => {
  const opening =
    waiting?.name === name ? Promise.resolve(waiting.chart) : openChartPicture(source, pixelLimit);
  waiting = null;
  // OpenCV loads while the picture is decoded; a picture that cannot be opened is told of first.
  const [chart, { cv }] = await Promise.all([opening, loadOpenCv()]);
  const answer = readChartPixels(cv, chart.picture, order);
  if (answer.kind === 'unknown-sheet') waiting = { name, chart };
  const { picture: _, ...opened } = chart;
  return { answer, opened };
});
