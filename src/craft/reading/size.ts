import { mmPerInch } from '#craft/units';
import type { SheetPose } from './pose.js';

/** What the picture's own file says of its scale. */
export interface PictureFacts {
  /** Pixels per inch from the file's density tag, or null. */
  readonly taggedPpi: number | null;
  /** The file carries what only cameras write: exposure, aperture, focal length. */
  readonly fromCamera: boolean;
}

export type SizeReading =
  | {
      readonly known: true;
      readonly ppi: number;
      /** Percent of the plan, across (x) and along (y) the sheet as it reads. */
      readonly acrossPercent: number;
      readonly alongPercent: number;
      /** Expanded (two standard deviations), percent, each direction. */
      readonly acrossUncertainty: number;
      readonly alongUncertainty: number;
    }
  | {
      readonly known: false;
      readonly why: 'camera' | 'no-density' | 'screen-density' | 'not-flat' | 'too-few-marks' | 'no-code';
    };

/**
 * A flatbed's own error of length, percent. Common practice: desktop scanners are true to about 1 part in 1000
 * and no better unless checked with a ruler.
 */
const scannerErrorPercent = 0.1;
/** Edge position left uncertain by ink spread and the printer's own rounding, mm a marker corner. */
const edgeUnsureMm = 0.05;
/** How far ink may spread over a mark's edge, mm; common practice for transfer paper and soft coats. */
const inkSpreadMm = 0.2;

/**
 * Densities that programs write when they know nothing: 72 (and 71/73 by rounding through metric units) and 96,
 * and anything too coarse to be a scan.
 */
export function trustedPpi({ taggedPpi, fromCamera }: PictureFacts): number | null {
  if (fromCamera || taggedPpi === null || !Number.isFinite(taggedPpi)) return null;
  return taggedPpi >= 99 && taggedPpi <= 4800 ? taggedPpi : null;
}

/** The printed size against the plan. Scans only: a photograph has no scale of its own. */
export function measureSize(pose: SheetPose, facts: PictureFacts): SizeReading {
  if (facts.fromCamera) return { known: false, why: 'camera' };
  if (facts.taggedPpi === null) return { known: false, why: 'no-density' };
  const ppi = trustedPpi(facts);
  if (ppi === null) return { known: false, why: 'screen-density' };
  const { flat } = pose;
  if (!flat || pose.markersUsed.length < 2) return { known: false, why: 'too-few-marks' };
  const pixelsPerMm = ppi / mmPerInch;
  // Perspective or a curved piece shows as corners that no affine map meets.
  if (pose.flatRmsPixels > Math.max(0.25 * pixelsPerMm, 0.6)) return { known: false, why: 'not-flat' };
  const across = Math.hypot(flat[0], flat[3]) / pixelsPerMm;
  const along = Math.hypot(flat[1], flat[4]) / pixelsPerMm;
  const cornerUnsureMm = Math.hypot(edgeUnsureMm, pose.flatRmsPixels / pixelsPerMm);
  return {
    known: true,
    ppi,
    acrossPercent: 100 * across,
    alongPercent: 100 * along,
    acrossUncertainty: uncertainty(
      pose.pairs.map(({ from }) => from.x),
      cornerUnsureMm,
    ),
    alongUncertainty: uncertainty(
      pose.pairs.map(({ from }) => from.y),
      cornerUnsureMm,
    ),
  };
}

/**
 * Two standard deviations of a slope, σ/√Σ(x−x̄)², with the corners' errors taken as shared by the four corners of
 * a marker (hence twice as large), the ink's spread, and the scanner's own error. Spread moves all edges of a
 * marker outward; across a sheet with markers at both ends that is nothing, but along a single band, where only the
 * markers' own height tells the size, it is most of the doubt.
 */
function uncertainty(placesMm: readonly number[], cornerUnsureMm: number): number {
  const middle = mean(placesMm);
  const square = placesMm.reduce((sum, x) => sum + (x - middle) ** 2, 0);
  const spread = placesMm.reduce((sum, x, i) => {
    const first = i - (i % 4);
    const outward = Math.sign(x - mean(placesMm.slice(first, first + 4)));
    return sum + (x - middle) * outward * inkSpreadMm;
  }, 0);
  const chance = (2 * 2 * cornerUnsureMm) / Math.sqrt(square);
  return Math.hypot(100 * chance, (100 * spread) / square, scannerErrorPercent);
}

const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;
