import type { RectMm, Rgb8 } from '#craft/sheet';
import type {
  HealthCombs,
  HealthGrid,
  HealthInk,
  HealthLadder,
  HealthLayout,
  HealthSlant,
  HealthSolid,
  HealthTint,
} from './health-sheet-types.js';
import type { RegistrationMark } from './types.js';

/**
 * Solids by device RGB. A desktop driver takes nothing else: light inks cannot be asked for at all (a tint may well be
 * printed with them), and what is asked for as black may come out of the colour inks as well.
 */
export const healthInks: readonly HealthInk[] = ['cyan', 'magenta', 'yellow', 'black'];
const solid: Readonly<Record<HealthInk, Rgb8>> = {
  cyan: [0, 255, 255],
  magenta: [255, 0, 255],
  yellow: [255, 255, 0],
  black: [0, 0, 0],
};
const tint: Readonly<Record<HealthInk, Rgb8>> = {
  cyan: [128, 255, 255],
  magenta: [255, 128, 255],
  yellow: [255, 255, 128],
  black: [128, 128, 128],
};

/** In one column of a ladder, from line to line: 1/90 inch, 6.7 pixels of a scan at 600 ppi. */
const linesPerInch = 90;
/** About a head's length, so that each nozzle has its turn (common practice: desktop heads are up to an inch long). */
const ladderMm = 26;
const ladderWidthMm = 12;
const ladderGapMm = 2.5;
/** Long enough for several passes of a head of an inch. */
const combsMm = 56;
const combPitchMm = 1.6;
const combCopies = 6;
const residues = 4;
/** 4 pixels of 1/360 inch: an even number, so that middles lie between pixels of either raster. */
const dotMm = (4 * 25.4) / 360;
const slantSideMm = 10;
const slantDegrees = 5;
const gridMm = 6.2;
const gridGapMm = 1;
const gridPeriodsInRows360 = [4, 6, 8, 12];
const tintMm = 10;
const groundMm = 3;
const solidMm = 8;
const gapMm = 3;
/** Shorter strips hold too few periods of a pass to tell one. */
const leastTintMm = 40;
const mostTintMm = 120;
/** Registration squares, the white round them, and about so far apart. */
const squareMm = (34 * 25.4) / 360;
const borderMm = 6;
const squaresApartMm = 28;

type Parts = Pick<
  HealthLayout,
  'registration' | 'ladders' | 'combs' | 'grids' | 'slants' | 'solids' | 'tints'
>;

/**
 * Everything within a live area; null when it does not fit. What is to be placed to a few micrometres lies on the raster's
 * rows and columns: whoever writes pixels rounds every edge to them, up to 35 µm at 360 an inch.
 */
export function healthParts(live: RectMm, rowsPerInch: number): Parts | null {
  const rowMm = 25.4 / rowsPerInch;
  const onRaster = (mm: number): number => Math.round(mm / rowMm) * rowMm;
  const leftMm = Math.ceil((live.xMm + borderMm) / rowMm) * rowMm;
  const topMm = Math.ceil((live.yMm + borderMm) / rowMm) * rowMm;
  const laddersMm = healthInks.length * (ladderWidthMm + ladderGapMm);
  const columns = residues * combCopies;
  const combsXMm = leftMm + laddersMm + gapMm;
  const widthMm = laddersMm + gapMm + columns * combPitchMm;
  const tintTopMm = topMm + combsMm + 2 * gapMm;
  const bottomMm = live.yMm + live.heightMm - borderMm;
  const tintHeightMm = Math.min(mostTintMm, bottomMm - tintTopMm);
  if (widthMm > live.widthMm - 2 * borderMm || tintHeightMm < leastTintMm) return null;

  const perLine = rowsPerInch / linesPerInch;
  const ladders = healthInks.map((ink, i): HealthLadder => {
    const xMm = leftMm + i * (ladderWidthMm + ladderGapMm);
    const columnXMm = Array.from({ length: perLine }, (_, k) =>
      onRaster(xMm + (k * ladderWidthMm) / perLine),
    );
    const steps = Math.round(ladderMm / rowMm);
    const lineMm = ladderWidthMm / perLine;
    return {
      ink,
      deviceRgb: solid[ink],
      steps,
      firstYMm: topMm + rowMm / 2,
      stepMm: rowMm,
      columnXMm,
      lineMm,
    };
  });
  const combs: HealthCombs = {
    ink: 'black',
    rows: Math.round(combsMm / rowMm),
    firstYMm: topMm + rowMm / 2,
    rowMm,
    residues,
    xMm: Array.from({ length: columns }, (_, k) => onRaster(combsXMm + (k + 0.5) * combPitchMm)),
    dotMm,
    reachMm: combPitchMm - dotMm,
  };
  const slantsTopMm = topMm + ladderMm + gapMm;
  const slants = healthInks.map((ink, i): HealthSlant => {
    const centre = leftMm + i * (ladderWidthMm + ladderGapMm) + ladderWidthMm / 2;
    const corners = slantedCorners(centre, slantsTopMm + ladderWidthMm / 2);
    return { ink, deviceRgb: solid[ink], corners, clearMm: 1.4 };
  });
  const gridsTopMm = Math.ceil((slantsTopMm + ladderWidthMm + 1.5) / rowMm) * rowMm;
  const grids = gridPeriodsInRows360.flatMap((rows, i): HealthGrid[] =>
    (['across', 'along'] as const).map((repeats, k) => ({
      repeats,
      periodMm: (rows * 25.4) / 360,
      rect: {
        xMm: onRaster(leftMm + (2 * i + k) * (gridMm + gridGapMm)),
        yMm: gridsTopMm,
        widthMm: gridMm,
        heightMm: gridMm,
      },
    })),
  );
  const tints = healthInks.map((ink, i): HealthTint => {
    const xMm = leftMm + i * (tintMm + groundMm);
    const rect = { xMm, yMm: tintTopMm, widthMm: tintMm, heightMm: tintHeightMm };
    const ground = { ...rect, xMm: xMm + tintMm + 0.6, widthMm: groundMm - 1.2 };
    return { ink, deviceRgb: tint[ink], rect, ground };
  });
  const solids = healthInks.map((ink, i): HealthSolid => {
    const rect = {
      xMm: combsXMm,
      yMm: tintTopMm + i * (solidMm + 1.5),
      widthMm: solidMm,
      heightMm: solidMm,
    };
    return { ink, deviceRgb: solid[ink], rect };
  });
  return { registration: squaresRound(live, onRaster), ladders, combs, grids, slants, solids, tints };
}

/** Upright edges lean one way and level ones the other, as on the coupons of a ladder. */
function slantedCorners(cx: number, cy: number): { xMm: number; yMm: number }[] {
  const lean = Math.tan((slantDegrees * Math.PI) / 180);
  const reach = slantSideMm / 2 / (1 + lean);
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([u, v]) => ({
    xMm: cx + (reach * (u + lean * v)) / (1 - lean * lean),
    yMm: cy + (reach * (v + lean * u)) / (1 - lean * lean),
  }));
}

function squaresRound(
  { xMm, yMm, widthMm, heightMm }: RectMm,
  onRaster: (mm: number) => number,
): RegistrationMark[] {
  const inset = borderMm / 2;
  const [left, right] = [xMm + inset, xMm + widthMm - inset];
  const [top, bottom] = [yMm + inset, yMm + heightMm - inset];
  const places: [number, number][] = [];
  const across = Math.max(2, Math.round((right - left) / squaresApartMm));
  const along = Math.max(2, Math.round((bottom - top) / squaresApartMm));
  for (let i = 0; i <= across; i += 1) {
    const x = left + (i * (right - left)) / across;
    places.push([x, top], [x, bottom]);
  }
  for (let i = 1; i < along; i += 1) {
    const y = top + (i * (bottom - top)) / along;
    places.push([left, y], [right, y]);
  }
  return places.map(([x, y]) => ({ xMm: onRaster(x), yMm: onRaster(y), sideMm: squareMm }));
}
