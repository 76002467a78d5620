import type { Blank, Press, PressKind } from '#contract';
import { developBlank } from '#craft/blank';
import {
  flatPressRun,
  type HeatRun,
  materials,
  mugPressRun,
  ovenRun,
  type PressCase,
  type PressStackRequest,
  usualPlaten,
  usualWrap,
} from '#craft/heat';
import { Problem } from '#craft/problem';
import type { Body } from './usual-body.js';

export interface PressedRunRequest {
  readonly blank: Blank;
  readonly body: Body;
  /** Null: a usual press for the blank's shape. */
  readonly press: Press | null;
  readonly platenC: number;
  readonly dwellSeconds: number;
  readonly pressure: Blank['recipe']['pressure'];
  readonly prePressSeconds?: number;
  readonly coolSeconds?: number;
  readonly blankStartC?: number;
  readonly roomC?: number;
  readonly bothSides?: boolean;
  /** Left out: as the blank's recipe says in its steps. */
  readonly faceDown?: boolean;
}

/** A blank in a press as a case for the model of heat, with what its figures per m² are to be multiplied by. */
export interface PressedRun extends PressCase {
  readonly kind: PressKind;
  /** The face that takes the picture. */
  readonly areaCm2: number;
  /** Whole platen over the part that lends its heat to the blank: the rest loses heat to the room too. */
  readonly wholePlatenRatio: number;
  readonly assumed: readonly string[];
}

/**
 * Beside the blank a platen lends heat from about as far as it spreads sideways in the metal within the first minute:
 * √(αt) of aluminium is 76 mm (α = 230/(2700·880) m²/s), taken as 60 mm. A thin heated wrap lends nothing.
 */
const lendsFromMm = 60;
/** 38 × 38 cm, a usual size (common practice); `usualPlaten` has its power. */
const usualPlatenMm = 380;

/** @throws Problem `press.invalid` for a piece that such a press cannot hold */
export function pressedRun(request: PressedRunRequest): PressedRun {
  const { blank, body, press } = request;
  const kind = press?.kind ?? (blank.shape.kind === 'cylinder' ? 'mug' : 'flat');
  expectFits(blank, press, kind);
  const outline = developBlank(blank.shape);
  const areaCm2 = ((outline.form === 'ellipse' ? Math.PI / 4 : 1) * outline.widthMm * outline.heightMm) / 100;
  const { platen, wholePlatenRatio, words } = platenOf(press, kind, outline, areaCm2);
  const both = request.bothSides ?? press?.heatedFrom === 'both';
  const faceDown = kind === 'flat' && (request.faceDown ?? liesFaceDown(blank));
  const stack: PressStackRequest = {
    blank: { material: body.material, thicknessMm: body.thicknessMm, coatingMm: body.coatingMm },
    setC: request.platenC,
    pressure: request.pressure,
    roomC: request.roomC ?? 21,
    ...(request.blankStartC === undefined ? {} : { blankStartC: request.blankStartC }),
    platen,
    bothSides: kind === 'flat' && both,
    faceDown,
  };
  const radiusMm = blank.shape.kind === 'cylinder' ? blank.shape.diameterMm / 2 : null;
  const run = runOf(kind, stack, request, radiusMm);
  return {
    run,
    pressPhase: kind === 'oven' ? 'bake' : 'press',
    dyeProbe: 'dye',
    kind,
    areaCm2,
    wholePlatenRatio,
    assumed: [
      `The blank: ${body.words}.`,
      ...(faceDown ? ['It lies face down on the paper: heat comes through it.'] : []),
      ...words,
    ],
  };
}

/** Records do not say it but in words: 'Lay the tile face down on the paper …'. */
const liesFaceDown = (blank: Blank): boolean =>
  blank.recipe.steps.some((step) => /\bface[- ]down\b/i.test(step));

function runOf(
  kind: PressKind,
  stack: PressStackRequest,
  request: PressedRunRequest,
  radiusMm: number | null,
): HeatRun {
  const { prePressSeconds = 0, dwellSeconds, coolSeconds = 0 } = request;
  if (kind === 'oven') {
    const { setC: _, platen: __, bothSides: ___, faceDown: ____, ...rest } = stack;
    // A shrink sleeve: a thin film holds the paper, and not hard.
    const sleeve = {
      cover: { material: materials.polyester, thicknessMm: 0.05 },
      pressure: 'light',
    } as const;
    return ovenRun(
      { ...rest, ...sleeve, ovenC: request.platenC },
      { bakeSeconds: dwellSeconds, coolSeconds },
      radiusMm,
    );
  }
  const pauseSeconds = prePressSeconds > 0 ? 5 : 0;
  const times = { prePressSeconds, pauseSeconds, dwellSeconds, openSeconds: 5, coolSeconds };
  return radiusMm === null ? flatPressRun(stack, times) : mugPressRun(stack, times, radiusMm);
}

function expectFits(blank: Blank, press: Press | null, kind: PressKind): void {
  const round = blank.shape.kind === 'cylinder';
  if (press === null || kind === 'oven' || round === (kind === 'mug')) return;
  throw new Problem(
    'press.invalid',
    round
      ? `“${blank.name}” is round, and “${press.name}” presses flat things.`
      : `“${blank.name}” is flat, and “${press.name}” is a press for mugs.`,
    { remedy: 'Choose a press that holds it, or none: then a usual one is taken.', where: 'pressId' },
  );
}

function platenOf(
  press: Press | null,
  kind: PressKind,
  outline: { readonly widthMm: number; readonly heightMm: number },
  areaCm2: number,
): { platen: NonNullable<PressStackRequest['platen']>; wholePlatenRatio: number; words: string[] } {
  if (kind === 'oven')
    return {
      platen: {},
      wholePlatenRatio: 1,
      words: [
        'The oven: air that moves a little and walls as hot as the air (Baik 1999); a thin sleeve holds the paper.',
      ],
    };
  const usual = kind === 'mug' ? usualWrap : usualPlaten;
  const wholeCm2 =
    press === null
      ? kind === 'mug'
        ? areaCm2
        : usualPlatenMm ** 2 / 100
      : (press.platenWidthMm * press.platenDepthMm) / 100;
  const margin = kind === 'mug' ? 0 : 2 * lendsFromMm;
  const nearCm2 = Math.min(wholeCm2, ((outline.widthMm + margin) * (outline.heightMm + margin)) / 100);
  const heaters = press?.heatedFrom === 'both' ? 2 : 1;
  const maxWPerM2 = press?.watts == null ? usual.maxWPerM2 : press.watts / heaters / (wholeCm2 / 1e4);
  const words =
    kind === 'mug'
      ? ['The wrap: silicone of 2 mm with heating foil (from memory).']
      : ['The platen: 18 mm of aluminium (from memory).'];
  words.push(
    press?.watts == null
      ? `Its heaters: about ${50 * Math.round((usual.maxWPerM2 * wholeCm2) / 5e5)} W, usual for the size (from memory).`
      : `Its heaters: ${press.watts} W, from its plate.`,
  );
  if (kind === 'flat' && wholeCm2 < areaCm2 * 0.98)
    words.push('The blank is larger than the platen: it is pressed in parts, and this is one of them.');
  return {
    platen: { areaRatio: Math.max(1, nearCm2 / areaCm2), maxWPerM2 },
    wholePlatenRatio: Math.max(1, wholeCm2 / nearCm2),
    words,
  };
}
