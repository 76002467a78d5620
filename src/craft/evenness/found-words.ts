import type { Field, Found, Place, UnevennessUnit } from './types.js';
import { atPlace, opposite, whereOn } from './where.js';

interface Wording {
  readonly worse: string;
  readonly better: string;
  readonly amount: (value: number) => string;
}

const wordings: Readonly<Record<UnevennessUnit, Wording>> = {
  ΔE00: { worse: 'paler', better: 'darker', amount: (value) => `${value.toFixed(1)} ΔE00` },
  K: { worse: 'cooler', better: 'hotter', amount: kelvin },
};

const wordingOf = ({ unit, called }: Field): Wording => ({ ...wordings[unit], ...called });

/** A difference of temperature as a person writes it. */
export function kelvin(value: number): string {
  return `${Math.abs(value) < 2.95 ? value.toFixed(1) : Math.round(value)} °C`;
}

export function tiltWords(worst: Place, size: number, about: Field): string {
  const { worse, amount } = wordingOf(about);
  const { sides } = about;
  return `The ${whereOn(worst, sides)} is ${amount(size)} ${worse} than the ${whereOn(opposite(worst), sides)}.`;
}

export function rimWords(size: number, reachMm: number, about: Field): string {
  const { worse, amount } = wordingOf(about);
  const reach = Math.max(5, 5 * Math.round((2 * reachMm) / 5));
  return `All edges are ${amount(size)} ${worse} than the middle, over the outer ${reach} mm or so.`;
}

export function spotWords(at: Place, size: number, acrossMm: number | null, about: Field): string {
  const { worse, better, amount } = wordingOf(about);
  const wide = acrossMm === null ? 'One place' : `A place about ${5 * Math.round(acrossMm / 5)} mm wide`;
  return `${wide} ${atPlace(at, about.sides)} is ${amount(Math.abs(size))} ${size < 0 ? better : worse} than round it.`;
}

/** What is uneven and where, without figures: 'Uneven: a paler spot at the back right, and the left is paler.' */
export function headline(found: readonly Found[], about: Field): string {
  if (found.every(({ kind }) => kind === 'even')) return evenWords[about.unit];
  const { worse, better } = wordingOf(about);
  const parts = found.map(({ kind, strength, at }) =>
    kind === 'rim'
      ? `all edges are ${worse}`
      : kind === 'tilt'
        ? `the ${whereOn(at!, about.sides)} is ${worse}`
        : `a ${strength.value < 0 ? better : worse} spot ${atPlace(at!, about.sides)}`,
  );
  const said = parts.length > 3 ? [...parts.slice(0, 3), `${parts.length - 3} more`] : parts;
  const last = said.at(-1)!;
  return `Uneven: ${said.length > 1 ? `${said.slice(0, -1).join(', ')}, and ${last}` : last}.`;
}

export const evenWords: Readonly<Record<UnevennessUnit, string>> = {
  ΔE00: 'It presses evenly: no tilt, rim or spot is beyond chance.',
  K: 'It heats evenly: no tilt, rim or spot is beyond chance.',
};

/** What usually does it, and what to do. Common practice of the trade; no map alone can be sure of the cause. */
export const likely: Readonly<Record<UnevennessUnit, Readonly<Record<string, string>>>> = {
  ΔE00: {
    tilt: 'Usually a platen that does not close parallel, or one side of it that is cooler (common practice); one sheet cannot tell which. Turn the sheet round by 180° and press another: if that side turns with the sheet, it is the print or the blank. If it stays, turn the pad: if it goes with the pad, change the pad. If it stays again, measure the platen’s temperature on both sides; if they are alike, have the platen levelled as its maker says.',
    rim: 'Usually too little pressure, a worn pad, or edges of the platen that lose heat (common practice); one sheet cannot tell which. Press a little harder, within what the blank’s maker allows, and try another sheet: if the edges stay so, change the pad or measure the platen’s edges. Until then keep work away from the edges.',
    spot: 'Usually a cold spot of the platen, something under the pad or the cover sheet (a seam, lint, a chip), or moisture (common practice). With the press cold, wipe platen and pad and change the cover sheet; dry the blank and press another sheet, turned by 180°: a spot that stays in its place is the press’s, one that turns is the sheet’s.',
    'dark spot':
      'Usually a place that presses harder or is hotter than the rest (common practice): something raised under the pad, or a heating element close by. With the press cold, look under pad and cover sheet; then press another sheet, turned by 180°: a spot that stays in its place is the press’s.',
    even: 'Nothing to do.',
  },
  K: {
    tilt: 'Usually a heating element that is weaker on one side, a draught from there, or a platen that was not yet warm all through (common practice). Leave the press closed and hot for a quarter of an hour and measure again; if it stays, use the hotter part, or ask the press’s maker.',
    rim: 'Edges of every platen lose heat, and more on one that has only just warmed up (common practice). Leave it hot for a quarter of an hour and measure again; if it stays, keep work away from the edges.',
    spot: 'Usually a weak place in the heating element, or a reading that was taken too soon or too loosely (common practice). Take that reading again first; if it stays, keep work away from there and ask the press’s maker.',
    'dark spot':
      'Usually a heating element close to the face, or a reading taken otherwise than the rest (common practice). Take that reading again first; if it stays, keep delicate work away from there.',
    even: 'Nothing to do.',
  },
};
