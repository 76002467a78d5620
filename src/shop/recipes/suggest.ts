import type {
  Blank,
  EstimateFacts,
  Press,
  PressStepFacts,
  RecipeSuggestion,
  RecipeVersion,
  SuggestRequest,
} from '#contract';
import { type StartRecipe, startRecipe, usualSpreads } from '#craft/heat';
import { Problem } from '#craft/problem';
import { figuresOf } from '#shop/catalogue';
import {
  cautionsFor,
  inWords,
  lookSeed,
  pressedRun,
  type ShopContacts,
  short,
  usualBody,
  usualKinetics,
  warmthJPerM2K,
} from '#shop/heat-desk';
import type { PressOffset } from '#shop/presses';
import { contactsDifferLog, doseDoubtLog } from './dose-doubt.js';
import { setFor } from './on-press.js';

export interface SuggestParts {
  readonly request: SuggestRequest;
  readonly blank: Blank;
  readonly known: Blank;
  /** What the known recipe rests on. */
  readonly knownVersion: RecipeVersion | undefined;
  /** What the blank's own rests on. */
  readonly ownVersion: RecipeVersion | undefined;
  readonly press: Press | null;
  readonly offset: PressOffset;
  readonly truth: { readonly sdK: number; readonly words: string };
  readonly contacts: ShopContacts;
}

/** Longest time worth considering, s: the contract's recipes go no further. */
const longestSeconds = 1800;

/** @throws Problem `press.invalid` when nothing there takes dye or the press cannot hold it, `press.unsafe` */
export function suggestRecipe(parts: SuggestParts): RecipeSuggestion {
  const { request, blank, known, press, truth, contacts } = parts;
  if (blank.coating.kind === 'none')
    throw new Problem(
      'press.invalid',
      `${blank.name} has no coat that holds dye: no time or heat makes up for it.`,
      {
        remedy: 'Take a blank with a coat for sublimation, or have it coated first.',
        where: 'blankId',
      },
    );
  const bodies = {
    known: usualBody(known, request.knownThicknessMm),
    unknown: usualBody(blank, request.thicknessMm),
  };
  const warmthRatio = warmthJPerM2K(bodies.unknown) / warmthJPerM2K(bodies.known);
  const platenC = request.platenC ?? known.recipe.platenC;
  const knownRun = pressedRun({
    blank: known,
    body: bodies.known,
    press: holds(press, known) ? press : null,
    platenC: known.recipe.platenC,
    dwellSeconds: known.recipe.dwellSeconds,
    pressure: known.recipe.pressure,
  });
  const unknownRun = pressedRun({
    blank,
    body: bodies.unknown,
    press,
    platenC,
    dwellSeconds: known.recipe.dwellSeconds,
    pressure: blank.recipe.pressure,
  });
  const doubt = doseDoubtLog(known, blank, warmthRatio, parts.knownVersion?.ground.kind);
  const start = startRecipe({
    known: knownRun,
    unknown: unknownRun,
    kinetics: usualKinetics,
    spreads: {
      ...usualSpreads,
      platenK: truth.sdK,
      coatingLog: doubt,
    },
    fitted: contacts.fitted,
    own: {
      known: { thickness: { blank: bodies.known.thicknessLog }, contactsLog: contactsDifferLog },
      unknown: { thickness: { blank: bodies.unknown.thicknessLog }, contactsLog: contactsDifferLog },
    },
    longestSeconds,
    seed: lookSeed,
  });
  const dwellSeconds = estimateOf(start);
  return {
    blankId: blank.id,
    knownBlankId: known.id,
    knownBlankName: known.name,
    knownRecipe: known.recipe,
    platenC,
    setC: setFor(platenC, parts.offset),
    dwellSeconds,
    assumed: [
      ...unknownRun.assumed,
      `The known blank: ${bodies.known.words}.`,
      contacts.words,
      truth.words,
      `Both want about the same dose; that may well be off by a factor of ${Math.exp(doubt).toFixed(1)} either way (a judgement, by what common practice does).`,
      'The dye’s activation energy: 90 kJ/mol, known within a third (no figure for the transfer was found in print).',
      'The range holds nine in ten of the worlds tried.',
    ],
    sentences: sentencesOf(parts, platenC, dwellSeconds, start, warmthRatio),
    cautions: cautionsFor(blank, unknownRun.kind, press),
    ladder: dwellSeconds === null ? [] : ladderSteps(platenC, dwellSeconds),
  };
}

/** A press for mugs is no place for the flat blank that is known, nor the other way round; its recipe was for another then. */
const holds = (press: Press | null, blank: Blank): boolean =>
  press !== null && press.kind !== 'oven' && (press.kind === 'mug') === (blank.shape.kind === 'cylinder');

function estimateOf({ dwellSeconds, lowSeconds, highSeconds }: StartRecipe): EstimateFacts | null {
  if (dwellSeconds === null) return null;
  return {
    value: dwellSeconds,
    low: Math.min(dwellSeconds, lowSeconds ?? dwellSeconds),
    high: Math.max(dwellSeconds, highSeconds ?? longestSeconds),
  };
}

function sentencesOf(
  { blank, known, knownVersion, ownVersion, offset }: SuggestParts,
  platenC: number,
  dwell: EstimateFacts | null,
  start: StartRecipe,
  warmthRatio: number,
): string[] {
  const sentences: string[] = [];
  if (dwell === null)
    sentences.push(
      `At ${short(platenC)} °C the dose of ${known.name} is not reached within ${longestSeconds / 60} min: choose more heat, within what the maker of the blank allows.`,
    );
  else {
    const setC = setFor(platenC, offset);
    const set = setC === Math.round(platenC) ? '' : ` (set ${setC})`;
    sentences.push(`Start with ${short(platenC)} °C${set} for ${inWords(rounded(dwell), 's')}.`);
  }
  const rests = {
    ladder: 'measured here by a ladder',
    stock: 'common practice, not measured',
    typed: 'as somebody typed it, not measured here',
    heat: 'itself carried over by this model: two steps away from anything measured',
  }[knownVersion?.ground.kind ?? 'stock'];
  sentences.push(`That gives it the dose of ${known.name}: ${figuresOf(known.recipe)}, ${rests}.`);
  if (dwell !== null && start.notReachedShare > 0.05)
    sentences.push(
      `In ${Math.round(100 * start.notReachedShare)} of 100 worlds tried it does not get there within ${longestSeconds / 60} min.`,
    );
  if (
    blank.shape.kind !== known.shape.kind &&
    (blank.shape.kind === 'cylinder' || known.shape.kind === 'cylinder')
  )
    sentences.push('One is pressed flat and the other in a wrap: that carries over poorly.');
  else if (Math.abs(Math.log(warmthRatio)) > 1.2)
    sentences.push(
      'The two take up warmth quite unlike each other, so the range is wide: press a ladder before a batch.',
    );
  if (ownVersion?.ground.kind === 'ladder')
    sentences.push('This blank’s own recipe was measured by a ladder: that is worth more than this.');
  sentences.push(
    'A place to start, not a recipe: the maker’s instructions come first, and a few coupons make it sure.',
  );
  return sentences;
}

const rounded = ({ value, low, high }: EstimateFacts): EstimateFacts => ({
  value: Math.round(value),
  low: Math.round(low),
  high: Math.round(high),
});

/**
 * Five coupons at one temperature, even in ratios over the range, but no further than half and twice the time: errors of
 * time and heat multiply the dose, and a second ladder follows where the first one points.
 */
function ladderSteps(platenC: number, { value, low, high }: EstimateFacts): PressStepFacts[] {
  const below = Math.min(2, Math.max(1.25, value / low));
  const above = Math.min(2, Math.max(1.25, high / value));
  const times = [value / below, value / Math.sqrt(below), value, value * Math.sqrt(above), value * above];
  const whole = times.map((seconds) => Math.min(longestSeconds, Math.max(5, Math.round(seconds))));
  return [...new Set(whole)].map((dwellSeconds) => ({ platenC, dwellSeconds }));
}
