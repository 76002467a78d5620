import { materials } from './materials.js';
import type { Geometry, HeatLayer, HeatRun, Material, Phase, Platen, Side } from './types.js';

/**
 * Resistance of a joint under pressure as that of a thin film of hot air (0.03 W/(m·K)): 40, 25 and 15 µm. No figure
 * for sublimation presses was found in print: these are guesses, to be sampled widely and fitted (`fitContacts`).
 */
export const guessedJointM2KPerW = { light: 1.3e-3, medium: 8e-4, firm: 5e-4 } as const;

/** What usual presses are like: common practice and usual handbook figures, from memory. */
export const usualPlaten = {
  /** 18 mm of aluminium. */
  heatCapacityJPerM2K: 2700 * 880 * 0.018,
  /** 1500 W on 0.14 m². */
  maxWPerM2: 10_700,
  bandK: 4,
  lossWPerM2K: 4,
  openFace: { hWPerM2K: 6, emissivity: 0.9 },
} as const;

/** A thin heated wrap for mugs: silicone with heating foil, about 2 mm, 320 W on 0.023 m². From memory. */
export const usualWrap = {
  heatCapacityJPerM2K: 1200 * 1300 * 0.002,
  maxWPerM2: 14_000,
  bandK: 6,
  lossWPerM2K: 8,
  openFace: { hWPerM2K: 8, emissivity: 0.9 },
} as const;

export interface PressedBlank {
  readonly material: Material;
  readonly thicknessMm: number;
  /** Polyester coat; null when the blank itself takes the dye (cloth). Default 25 µm. */
  readonly coatingMm?: number | null;
}

export interface PressStackRequest {
  readonly blank: PressedBlank;
  readonly setC: number;
  readonly pressure: keyof typeof guessedJointM2KPerW;
  readonly roomC?: number;
  /** Pieces start at the room's temperature unless said. */
  readonly blankStartC?: number;
  /** Differences from `usualPlaten` (for mugs: `usualWrap`). */
  readonly platen?: Partial<Omit<Platen, 'setC'>>;
  /** Protecting paper or sheet over the transfer; null: none. Default plain paper of 0.1 mm. */
  readonly cover?: { readonly material: Material; readonly thicknessMm: number } | null;
  readonly paperMm?: number;
  /** What lies under the blank; null: nothing but air. Default silicone sponge of 8 mm. Not for mugs. */
  readonly pad?: { readonly material: Material; readonly thicknessMm: number } | null;
  /** A press heated from below too. */
  readonly bothSides?: boolean;
  /** The piece lies on the paper, its picture side down: heat comes through it. Not for mugs and ovens. */
  readonly faceDown?: boolean;
}

export interface PressTimes {
  readonly prePressSeconds?: number;
  readonly pauseSeconds?: number;
  readonly dwellSeconds: number;
  /** Open, paper still on. */
  readonly openSeconds?: number;
  /** Paper off, away from the press. */
  readonly coolSeconds?: number;
}

/**
 * A press as a run: layers `cover`, `paper`, `coating`, `blank`, `pad`; phases `pre-press`, `pause`, `press`, `open`,
 * `cool`; probes `dye` (where the dye goes), `paper`, `middle` and `back` of the blank.
 */
export function flatPressRun(request: PressStackRequest, times: PressTimes): HeatRun {
  const pad = request.bothSides ? null : request.pad === undefined ? usualPad : request.pad;
  return pressRun(request, times, { kind: 'plane' }, usualPlaten, pad);
}

/** The same for a wrap round a mug of this outer radius, air inside. */
export function mugPressRun(request: PressStackRequest, times: PressTimes, outerRadiusMm: number): HeatRun {
  const coated = request.blank.coatingMm !== null;
  const geometry = {
    kind: 'cylinder',
    radiusMm: outerRadiusMm,
    ofLayer: coated ? 'coating' : 'blank',
  } as const;
  return pressRun(request, times, geometry, usualWrap, null);
}

const usualPad = { material: materials['silicone-sponge'], thicknessMm: 8 };

function pressRun(
  request: PressStackRequest,
  times: PressTimes,
  geometry: Geometry,
  usual: Omit<Platen, 'setC' | 'startC'>,
  pad: { readonly material: Material; readonly thicknessMm: number } | null,
): HeatRun {
  const roomC = request.roomC ?? 20;
  const joint = guessedJointM2KPerW[request.pressure];
  const { blank } = request;
  const coatingMm = blank.coatingMm === undefined ? 0.025 : blank.coatingMm;
  const cover = request.cover === undefined ? { material: materials.paper, thicknessMm: 0.1 } : request.cover;
  const blankC = request.blankStartC ?? roomC;
  const paper: Piece = {
    id: 'paper',
    material: materials.paper,
    thicknessMm: request.paperMm ?? 0.1,
    startC: roomC,
  };
  const coating: readonly Piece[] =
    coatingMm === null
      ? []
      : [{ id: 'coating', material: materials.polyester, thicknessMm: coatingMm, startC: blankC }];
  const body: Piece = {
    id: 'blank',
    material: blank.material,
    thicknessMm: blank.thicknessMm,
    startC: blankC,
  };
  // What is laid on what, from above: coating and body are one piece, with no joint between.
  const laid: (readonly Piece[])[] = request.faceDown
    ? [[body, ...coating], [paper]]
    : [[paper], [...coating, body]];
  if (cover !== null) laid.unshift([{ id: 'cover', ...cover, startC: roomC }]);
  if (pad !== null) laid.push([{ id: 'pad', ...pad, startC: roomC, ofPress: true }]);
  const layers = laid.flatMap((pieces, i) =>
    pieces.map(
      (piece, k): HeatLayer =>
        k > 0 ? piece : { ...piece, contactM2KPerW: joint, joint: jointAbove(laid, i) },
    ),
  );

  const platen: Platen = { ...usual, startC: request.setC, ...request.platen, setC: request.setC };
  return {
    geometry,
    layers,
    topPlaten: platen,
    ...(request.bothSides ? { bottomPlaten: platen } : {}),
    roomC,
    phases: phasesOf(request, times, layers, roomC, joint),
    probes: [
      { name: 'dye', layer: coatingMm === null ? 'blank' : 'coating', depth: request.faceDown ? 1 : 0 },
      { name: 'paper', layer: 'paper', depth: 0.5 },
      { name: 'middle', layer: 'blank', depth: 0.5 },
      { name: 'back', layer: 'blank', depth: request.faceDown ? 0 : 1 },
    ],
  };
}

type Piece = Omit<HeatLayer, 'contactM2KPerW' | 'joint'>;

/** Joints by what meets there: `platen`, `transfer` (paper on blank), `pad`, else `cover`. */
function jointAbove(laid: readonly (readonly Piece[])[], at: number): string {
  if (at === 0) return 'platen';
  if (laid[at]![0]!.id === 'pad') return 'pad';
  const [over, under] = [laid[at - 1]!, laid[at]!];
  return [...over, ...under].some(({ id }) => id === 'paper') &&
    [...over, ...under].some(({ id }) => id === 'blank')
    ? 'transfer'
    : 'cover';
}

/** Still air on a warm face: usual handbook figure, from memory. */
const stillAirHWPerM2K = 7;
/** Chosen for the share of radiation that Baik measured; see `ovenRun`. */
const ovenAirHWPerM2K = 6;

function phasesOf(
  request: PressStackRequest,
  times: PressTimes,
  layers: readonly HeatLayer[],
  roomC: number,
  jointM2KPerW: number,
): readonly Phase[] {
  const air = (material: Material): Side => ({
    kind: 'air',
    airC: roomC,
    hWPerM2K: stillAirHWPerM2K,
    emissivity: material.emissivity,
  });
  const under = layers.at(-1)!.material;
  const bottom: Side = request.bothSides ? { kind: 'platen', contactM2KPerW: jointM2KPerW } : air(under);
  const piece = layers.filter((layer) => layer.id === 'coating' || layer.id === 'blank');
  const withoutPaper = layers.filter((layer) => layer.id !== 'paper').map((layer) => layer.id);
  const bare = piece[0]!.material;
  const phases: Phase[] = [];
  const add = (seconds: number | undefined, phase: Omit<Phase, 'seconds'>): void => {
    if (seconds !== undefined && seconds > 0) phases.push({ ...phase, seconds });
  };
  add(times.prePressSeconds, { name: 'pre-press', top: { kind: 'platen' }, bottom, layers: withoutPaper });
  add(times.pauseSeconds, {
    name: 'pause',
    top: air(bare),
    bottom,
    layers: withoutPaper.filter((id) => id !== 'cover'),
  });
  phases.push({ name: 'press', seconds: times.dwellSeconds, top: { kind: 'platen' }, bottom });
  add(times.openSeconds, { name: 'open', top: air(layers[0]!.material), bottom });
  add(times.coolSeconds, {
    name: 'cool',
    top: air(bare),
    bottom: air(piece.at(-1)!.material),
    layers: piece.map((layer) => layer.id),
  });
  return phases;
}

/**
 * A wrapped piece in an oven: convection and radiation from all round, 20 to 48 W/m²K together at 186 to 225 °C of
 * which 75 to 80 % is radiation (Baik 1999); here 6 W/m²K of convection and radiation by its law, which is that. The paper is held
 * against the piece by a sleeve or wrap, whose warmth is small.
 * @param outerRadiusMm null for a flat piece heated on both faces
 */
export function ovenRun(
  request: Omit<PressStackRequest, 'setC' | 'platen' | 'pad' | 'bothSides'> & { readonly ovenC: number },
  times: { readonly bakeSeconds: number; readonly coolSeconds?: number },
  outerRadiusMm: number | null,
): HeatRun {
  const { ovenC, ...rest } = request;
  const coated = request.blank.coatingMm !== null;
  const geometry: Geometry =
    outerRadiusMm === null
      ? { kind: 'plane' }
      : { kind: 'cylinder', radiusMm: outerRadiusMm, ofLayer: coated ? 'coating' : 'blank' };
  const pressTimes = {
    dwellSeconds: times.bakeSeconds,
    ...(times.coolSeconds === undefined ? {} : { coolSeconds: times.coolSeconds }),
  };
  const { topPlaten: _, ...run } = pressRun(
    { ...rest, setC: ovenC },
    pressTimes,
    geometry,
    usualPlaten,
    null,
  );
  const hot = {
    kind: 'air',
    airC: ovenC,
    hWPerM2K: ovenAirHWPerM2K,
    emissivity: 0.9,
    heated: true,
  } as const;
  return {
    ...run,
    phases: run.phases.map((phase) =>
      phase.name === 'press' ? { ...phase, name: 'bake', top: hot, bottom: hot } : phase,
    ),
  };
}
