import { newSheetId } from '../../src/craft/sheet/index.js';
import { type EvennessSheetOrder, planEvennessSheet } from '../../src/craft/testsheet/index.js';
import { type Chance, chanceOf } from './chance.js';
import { transfer, usualTransfer } from './press-transfer.js';

/**
 * A heat press that is not even, made of what makes it so rather than of tilt, rim and spots in colour: a field of
 * temperature (a weaker side, edges that lose heat as fins do, a cold place with a steep flank) and a field of pressure
 * (a hinge not parallel, a worn pad that bulges, debris that holds the platen off). Dye goes over by `press-transfer`,
 * which knows none of the terms that are fitted. u and v run from −1 (left, back) to 1 (right, front). Invented figures.
 */
export interface UnevenPlaten {
  readonly platenC: number;
  readonly dwellSeconds: number;
  readonly pressureBar: number;
  /** The right, and the front, are so much hotter than the other end. */
  readonly hotterRightK?: number;
  readonly hotterFrontK?: number;
  /** A mid-edge is so much cooler than the middle, with this length of a fin. */
  readonly edgeLossK?: number;
  readonly finMm?: number;
  readonly coldSpot?: {
    readonly u: number;
    readonly v: number;
    readonly radiusMm: number;
    readonly lossK: number;
  };
  /** Pressure at right over that at left, less one. */
  readonly harderRight?: number;
  /** Share of the pressure that is gone along the edges. */
  readonly wornEdges?: number;
  readonly debris?: { readonly u: number; readonly v: number; readonly radiusMm: number };
}

export const usualPlaten: UnevenPlaten = { platenC: 196, dwellSeconds: 45, pressureBar: 2 };

export interface Face {
  readonly widthMm: number;
  readonly depthMm: number;
}

/** °C at a place. */
export function celsiusAt(how: UnevenPlaten, u: number, v: number, face: Face): number {
  const fin = how.finMm ?? 45;
  const loss = (at: number, mm: number): number =>
    Math.cosh((at * mm) / (2 * fin)) / Math.cosh(mm / (2 * fin));
  const kept = (1 - loss(u, face.widthMm)) * (1 - loss(v, face.depthMm));
  const middle = (1 - loss(0, face.widthMm)) * (1 - loss(0, face.depthMm));
  const spot = how.coldSpot;
  const away = spot ? distanceMm(u, v, spot, face) / spot.radiusMm : 0;
  return (
    how.platenC +
    ((how.hotterRightK ?? 0) * u + (how.hotterFrontK ?? 0) * v) / 2 -
    (how.edgeLossK ?? 0) * (1 - kept / middle) -
    (spot ? spot.lossK / (1 + away ** 4) : 0)
  );
}

/** bar at a place */
export function barAt(how: UnevenPlaten, u: number, v: number, face: Face): number {
  const edge = Math.max(Math.abs(u), Math.abs(v));
  const worn = 1 - (how.wornEdges ?? 0) * Math.max(0, (edge - 0.5) / 0.5) ** 2;
  const held = how.debris ? distanceMm(u, v, how.debris, face) / how.debris.radiusMm : 9;
  // Hard debris carries the platen: none on its rim, all of it some way off.
  const free = held > 9 ? 1 : 1 - Math.exp(-((held / 1.2) ** 3));
  return Math.max(
    0.01,
    how.pressureBar * (1 + ((how.harderRight ?? 0) * u) / 2) * worn * Math.max(0.02, free),
  );
}

const distanceMm = (u: number, v: number, at: { u: number; v: number }, { widthMm, depthMm }: Face): number =>
  Math.hypot(((u - at.u) * widthMm) / 2, ((v - at.v) * depthMm) / 2);

/** A middle tone: a third of the dye of a full black. */
const greyTransfer = {
  ...usualTransfer,
  dyes: {
    cyan: { ...usualTransfer.dyes.cyan, amount: usualTransfer.dyes.cyan.amount / 3 },
    magenta: { ...usualTransfer.dyes.magenta, amount: usualTransfer.dyes.magenta.amount / 3 },
    yellow: { ...usualTransfer.dyes.yellow, amount: usualTransfer.dyes.yellow.amount / 3 },
  },
};

interface Grey {
  readonly lab: readonly [number, number, number];
  readonly density: number;
}

/** Colour of the middle tone over temperature and pressure; worked out on a lattice, since cells are many. */
function greys(dwellSeconds: number): (platenC: number, bar: number) => Grey {
  const kept = new Map<string, Grey>();
  const stepK = 1;
  const stepLog = 0.15;
  const at = (i: number, j: number): Grey => {
    const key = `${i} ${j}`;
    let grey = kept.get(key);
    if (!grey) {
      const platenC = i * stepK;
      const { blackLab, density } = transfer(
        { platenC, dwellSeconds, pressureBar: Math.exp(j * stepLog) },
        greyTransfer,
      );
      grey = { lab: blackLab, density: density.black };
      kept.set(key, grey);
    }
    return grey;
  };
  return (platenC, bar) => {
    const [x, y] = [platenC / stepK, Math.log(bar) / stepLog];
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [f, g] = [x - i, y - j];
    const corners = [at(i, j), at(i + 1, j), at(i, j + 1), at(i + 1, j + 1)];
    const shares = [(1 - f) * (1 - g), f * (1 - g), (1 - f) * g, f * g];
    const mixed = (of: (grey: Grey) => number): number =>
      corners.reduce((sum, corner, k) => sum + shares[k]! * of(corner), 0);
    return {
      lab: [mixed((c) => c.lab[0]), mixed((c) => c.lab[1]), mixed((c) => c.lab[2])],
      density: mixed((c) => c.density),
    };
  };
}

const greyOf = new Map<number, ReturnType<typeof greys>>();
export function greyAt(dwellSeconds: number, platenC: number, bar: number): Grey {
  let table = greyOf.get(dwellSeconds);
  if (!table) {
    table = greys(dwellSeconds);
    greyOf.set(dwellSeconds, table);
  }
  return table(platenC, bar);
}

/** How a scan of such a sheet errs, in CIELAB: cell by cell, mottle that neighbours share, what is left of the lamp. */
export interface SheetNoise {
  readonly cellSd: number;
  readonly mottleSd: number;
  readonly mottleMm: number;
  readonly lampSd: number;
  /** Shares of cells spoilt by dust, and not read at all. */
  readonly spoilt: number;
  readonly unread: number;
}

export const usualSheetNoise: SheetNoise = {
  cellSd: 0.2,
  mottleSd: 0.15,
  mottleMm: 12,
  lampSd: 0.05,
  spoilt: 0.015,
  unread: 0.02,
};

export const evennessOrder: EvennessSheetOrder = {
  sheetId: newSheetId(Uint8Array.of(1, 9, 1, 9, 1, 9)),
  widthMm: 380,
  heightMm: 280,
  marginMm: 4,
  material: 'hard',
  mirrorOnWriting: true,
};

export interface SimulatedCell {
  readonly column: number;
  readonly row: number;
  readonly lab: [number, number, number];
  readonly sdLab: [number, number, number];
  readonly density: number;
  readonly isSound: boolean;
}

let planned: ReturnType<typeof planEvennessSheet> | null = null;

/** The sheet's own cells, pressed on such a platen and read. */
export function pressedEvennessSheet(
  how: UnevenPlaten,
  seed: number,
  noise: SheetNoise = usualSheetNoise,
): { cells: SimulatedCell[]; columns: number; rows: number; pitchMm: number } {
  planned ??= planEvennessSheet(evennessOrder);
  const { columns, rows, pitchMm, patches } = planned.layout;
  const face = { widthMm: columns * pitchMm, depthMm: rows * pitchMm };
  const chance = chanceOf(seed * 2654435761);
  const mottle = wavesOf(chance, noise.mottleMm);
  const lamp = [chance.normal(), chance.normal(), chance.normal()];
  const cells = patches.flatMap(({ column, row }): SimulatedCell[] => {
    if (chance.next() < noise.unread) return [];
    const [u, v] = [(2 * (column + 0.5)) / columns - 1, (2 * (row + 0.5)) / rows - 1];
    const grey = greyAt(how.dwellSeconds, celsiusAt(how, u, v, face), barAt(how, u, v, face));
    const together =
      noise.mottleSd * mottle((column + 0.5) * pitchMm, (row + 0.5) * pitchMm) +
      noise.lampSd * (lamp[0]! * u + lamp[1]! * v + lamp[2]! * (u * u + v * v - 2 / 3));
    const dust = chance.next() < noise.spoilt ? chance.between(-8, 12) : 0;
    const own = [chance.normal(), chance.normal(), chance.normal()].map((z) => noise.cellSd * z);
    const lab: [number, number, number] = [
      grey.lab[0] + together + dust + own[0]!,
      grey.lab[1] + own[1]!,
      grey.lab[2] + own[2]!,
    ];
    const sd = noise.cellSd;
    // A step of L* is about 0.011 of density in a middle tone.
    const density = grey.density - 0.011 * (lab[0] - grey.lab[0]);
    return [{ column, row, lab, sdLab: [sd, sd, sd], density, isSound: true }];
  });
  return { cells, columns, rows, pitchMm };
}

/** A rough field of variance one: waves of random direction and phase about so long as `mm` is wide. */
function wavesOf(chance: Chance, mm: number): (xMm: number, yMm: number) => number {
  const waves = Array.from({ length: 60 }, () => {
    const [kx, ky] = [chance.normal() / mm, chance.normal() / mm];
    return { kx, ky, phase: chance.between(0, 2 * Math.PI) };
  });
  return (x, y) =>
    Math.sqrt(2 / waves.length) *
    waves.reduce((sum, { kx, ky, phase }) => sum + Math.cos(kx * x + ky * y + phase), 0);
}
