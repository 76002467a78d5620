import { Problem } from '#craft/problem';
import type { Point, SheetPose } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { lightField } from './light-field.js';
import { grainOf, patchValue } from './patch-value.js';
import { median } from './picture.js';
import { placePatches } from './place-patches.js';
import { spoiling } from './remarks.js';
import { derivativeAt, pixelsPerMm } from './sheet-map.js';
import type { LinearRgb, PatchWarning, SampledPicture } from './types.js';

/** One cell of the map. */
export interface EvennessCell {
  readonly column: number;
  readonly row: number;
  /** Its middle on the sheet as it reads, mm. */
  readonly at: Point;
  /** Linear light with the unevenness of the reader's light taken out. */
  readonly rgb: LinearRgb;
  /** From pixel to pixel, and of the mean. */
  readonly sd: LinearRgb;
  readonly sdOfMean: LinearRgb;
  readonly warnings: readonly PatchWarning[];
  readonly isSound: boolean;
}

export interface EvennessReading {
  readonly sheetId: string;
  readonly surface: 'paper' | 'piece';
  readonly columns: number;
  readonly rows: number;
  readonly pitchMm: number;
  readonly area: ChartLayout['area'];
  /** Row by row; cells that hold a registration mark, or lie outside the picture, are left out. */
  readonly cells: readonly EvennessCell[];
  readonly outside: number;
  readonly groundRgb: LinearRgb;
  /** Lightest over darkest of the reader's light over the sheet: what was taken out. */
  readonly lightRatio: number;
  /** A cell's standard deviation of chance, as a share of its light: median over the cells. */
  readonly noiseShare: number;
  readonly pixelsPerMm: number;
  readonly largestShiftMm: number;
  readonly remarks: readonly string[];
}

/** Of registration marks and of the cells' edges, the shares that must be where the sheet has them. */
const leastMarks = 0.5;
const leastEdges = 0.6;
const leastSound = 0.6;
const leastPixelsPerMm = 2.8;

/**
 * An evenness sheet in one picture: its tone cell by cell. The reader's own light is told from the bare ground between
 * the cells in the same picture, so that a scanner darker at its rim is not taken for a platen cooler at its rim.
 *
 * @throws Problem `scan.wrong-sheet` when it is another sheet, `scan.unclear` when it cannot be made out
 */
export function readEvenness(picture: SampledPicture, layout: ChartLayout, pose: SheetPose): EvennessReading {
  const placed = placePatches(picture, layout, pose);
  const scale = pixelsPerMm(derivativeAt(placed.pose.toPicture, middleOf(layout.area)));
  if (scale < leastPixelsPerMm) {
    throw new Problem('scan.unclear', `The picture shows only ${scale.toFixed(1)} pixels a millimetre.`, {
      remedy: 'Scan the sheet at 150 ppi or more.',
    });
  }
  const light = lightField(picture, layout, placed.pose, placed.shiftNear);
  const { found } = placed.registration;
  if (placed.edgeShare < leastEdges || found < leastMarks * layout.registration.length) {
    throw new Problem('scan.wrong-sheet', 'The marks are not where this evenness sheet has them.', {
      remedy: 'Show the evenness sheet itself, whole and flat; or choose the sheet that this is.',
    });
  }
  if (!light || light.clippedShare > 0.5) {
    throw new Problem(
      'scan.unclear',
      light
        ? 'The bare ground is as light as the picture can hold, so the scanner’s own light cannot be told.'
        : 'Too little of the bare ground between the cells is in the picture.',
      { remedy: 'Scan the whole sheet again, with all automatic corrections off and less brightness.' },
    );
  }
  const grain = grainOf(picture, layout, placed.pose, placed.shifts);
  const places = layout.patches.map(({ rect }) => middleOf(rect));
  const lights = places.map(light.at);
  const ground = [0, 1, 2].map((c) => lights.reduce((sum, rgb) => sum + rgb[c]!, 0) / lights.length);
  const cells = layout.patches.flatMap(({ column, row, rect }, i): EvennessCell[] => {
    const value = patchValue(picture, layout, placed.pose, rect, placed.shifts[i]!, grain);
    if (!value) return [];
    const even = (rgb: LinearRgb): LinearRgb =>
      rgb.map((v, c) => (v * ground[c]!) / lights[i]![c]!) as unknown as LinearRgb;
    // A gradient within a cell is what the sheet is there to show.
    const warnings = value.warnings.filter((warning) => warning !== 'uneven');
    const isSound = !warnings.some((warning) => spoiling.has(warning));
    const [rgb, sd, sdOfMean] = [even(value.rgb), even(value.sd), even(value.sdOfMean)];
    return [{ column, row, at: places[i]!, rgb, sd, sdOfMean, warnings, isSound }];
  });
  const sound = cells.filter(({ isSound }) => isSound);
  if (sound.length < leastSound * layout.patches.length) {
    throw new Problem('scan.unclear', `Only ${sound.length} of ${layout.patches.length} cells can be read.`, {
      remedy: 'Clean the glass, show the whole sheet, and scan again without automatic corrections.',
    });
  }
  const levels = lights.map(([r, g, b]) => (r + g + b) / 3);
  const outside = layout.patches.length - cells.length;
  const largestShiftMm = Math.max(0, ...placed.shifts.map(({ x, y }) => Math.hypot(x, y)));
  const noiseShare = median(sound.map(({ rgb, sdOfMean }) => sdOfMean[1] / Math.max(1e-6, rgb[1])));
  const lightRatio = Math.max(...levels) / Math.min(...levels);
  return {
    sheetId: layout.sheetId,
    surface: pose.seenMirrored ? 'paper' : 'piece',
    columns: layout.columns,
    rows: layout.rows,
    pitchMm: layout.pitchMm,
    area: layout.area,
    cells,
    outside,
    groundRgb: ground as unknown as LinearRgb,
    lightRatio,
    noiseShare,
    pixelsPerMm: scale,
    largestShiftMm,
    remarks: [
      ...(outside > 0 ? [`${outside} of ${layout.patches.length} cells lie outside the picture.`] : []),
      ...(pose.seenMirrored ? ['This is the printed paper: it tells of the printer, not of the press.'] : []),
      ...(lightRatio > 1.15
        ? [
            `The scanner’s own light differs by ${Math.round(100 * (lightRatio - 1))} % over the sheet; this was taken out.`,
          ]
        : []),
    ],
  };
}

const middleOf = (rect: ChartLayout['area']): Point => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
