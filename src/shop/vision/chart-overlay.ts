import sharp from 'sharp';
import { Problem } from '#craft/problem';
import { mapPoint, type Point } from '#craft/reading';
import { mostChartPixels } from './open-chart-picture.js';
import { asScanProblem } from './open-picture.js';
import { asInput, uprightSize } from './open-upright.js';
import { drawReading } from './overlay-drawing.js';
import { defaultPixelLimit, type ReadChart } from './read-chart-picture.js';

export interface OverlayOptions {
  /** Of the longer side. */
  readonly maxPixels?: number | undefined;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

export interface ChartOverlay {
  readonly jpeg: Buffer;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const defaultMaxPixels = 2400;
/** What is left of the picture round the sheet, as a share of the sheet's longer side. */
const roundSheet = 0.025;

/**
 * The picture as it was read, cut to the sheet and turned upright (a piece then reads the right way, paper backwards, as
 * it lies), with what was read drawn over it: the part of each patch that was looked at, doubtful ones crossed out,
 * registration marks ringed, the sheet's corners bracketed.
 *
 * @param source the very picture that was read: a path, or the file's bytes
 * @throws Problem `image.*`, `file.missing`, `job.cancelled`
 */
export async function chartOverlay(
  source: string | Uint8Array,
  readChart: ReadChart,
  { maxPixels = defaultMaxPixels, pixelLimit = defaultPixelLimit, signal }: OverlayOptions = {},
): Promise<ChartOverlay> {
  const { reading } = readChart;
  stopIfAborted(signal);
  try {
    const options = { failOn: 'error', limitInputPixels: pixelLimit } as const;
    const input = asInput(source);
    const { width, height, orientation } = await sharp(input, options).metadata();
    const size = uprightSize({ width, height, orientation }, mostChartPixels);
    const seen = partWithSheet(readChart, size);
    const enlarged = size.upWidth / size.width;
    const scale = Math.min(enlarged, maxPixels / Math.max(seen.width, seen.height));
    const shown = {
      width: Math.max(1, Math.round(seen.width * scale)),
      height: Math.max(1, Math.round(seen.height * scale)),
    };
    const part = await sharp(input, { ...options, autoOrient: true })
      .extract(storedPart(seen, enlarged, size))
      .resize({ ...shown, fit: 'fill' })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .removeAlpha()
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    stopIfAborted(signal);
    const turn = (360 - reading.lie.turnedDegrees) % 360;
    const turned = turn % 180 === 0 ? shown : { width: shown.height, height: shown.width };
    const place = ({ x, y }: Point): Point =>
      turnedPoint(
        { x: ((x - seen.left) * shown.width) / seen.width, y: ((y - seen.top) * shown.height) / seen.height },
        shown,
        turn,
      );
    const { width: partWidth, height: partHeight, channels } = part.info;
    const jpeg = await sharp(part.data, { raw: { width: partWidth, height: partHeight, channels } })
      .rotate(turn)
      .composite([{ input: Buffer.from(drawReading(readChart, turned, place)) }])
      .jpeg({ quality: 88, chromaSubsampling: '4:4:4' })
      .toBuffer();
    stopIfAborted(signal);
    return { jpeg, widthPixels: turned.width, heightPixels: turned.height };
  } catch (error) {
    throw asScanProblem(error);
  }
}

interface Part {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}
type Size = ReturnType<typeof uprightSize>;

/** In pixels of the picture as it was read. */
function partWithSheet({ reading, layout }: ReadChart, { width, height }: Size): Part {
  const corners = sheetCorners(layout).map((corner) => mapPoint(reading.toPicture, corner));
  const more = roundSheet * reading.pixelsPerMm * Math.max(layout.widthMm, layout.heightMm);
  const span = (values: number[], most: number): [number, number] => {
    const from = Math.floor(Math.max(0, Math.min(...values) - more));
    return [from, Math.ceil(Math.min(most, Math.max(...values) + more)) - from];
  };
  const [left, partWidth] = span(
    corners.map(({ x }) => x),
    width,
  );
  const [top, partHeight] = span(
    corners.map(({ y }) => y),
    height,
  );
  return { left, top, width: Math.max(1, partWidth), height: Math.max(1, partHeight) };
}

/** The same part in pixels of the upright file. */
function storedPart(part: Part, enlarged: number, { upWidth, upHeight }: Size): Part {
  const left = Math.min(upWidth - 1, Math.floor(part.left * enlarged));
  const top = Math.min(upHeight - 1, Math.floor(part.top * enlarged));
  return {
    left,
    top,
    width: Math.max(1, Math.min(upWidth - left, Math.round(part.width * enlarged))),
    height: Math.max(1, Math.min(upHeight - top, Math.round(part.height * enlarged))),
  };
}

export const sheetCorners = ({ widthMm, heightMm }: ReadChart['layout']): Point[] => [
  { x: 0, y: 0 },
  { x: widthMm, y: 0 },
  { x: widthMm, y: heightMm },
  { x: 0, y: heightMm },
];

/** Where a point comes to when its picture is turned clockwise. */
function turnedPoint(
  { x, y }: Point,
  { width, height }: { width: number; height: number },
  turn: number,
): Point {
  if (turn === 90) return { x: height - y, y: x };
  if (turn === 180) return { x: width - x, y: height - y };
  if (turn === 270) return { x: y, y: width - x };
  return { x, y };
}

function stopIfAborted(signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  throw new Problem('job.cancelled', 'The drawing was stopped.', { remedy: 'Start it again when you like.' });
}
