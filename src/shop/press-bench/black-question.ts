import type { BlackQuestion } from '#contract';
import { brownHueDegrees, type MeasuredLab } from '#craft/presswindow';

/**
 * A black called green or brown by eye, as a hue: tinted is seen from about 2.5 units on (the press window's `blackByEye`),
 * so it is taken to lie a little beyond, with doubt enough for a slight and a plain tint. Choices of ours.
 */
const seen = { green: -4, neutral: 0, brown: 4 } as const;
const seenSd = 1.8;
/** Lightness of an ordinary pressed black; nothing is told from it. */
const usualL = 18;
/** Of a Lab that comes without its doubt: a scanner at its word. */
const plainSd = 1.2;

export function blackOf(black: BlackQuestion['black']): MeasuredLab {
  if ('byEye' in black) {
    const hue = (brownHueDegrees * Math.PI) / 180;
    const size = seen[black.byEye];
    return {
      lab: [usualL, size * Math.cos(hue), size * Math.sin(hue)],
      sdLab: [seenSd, seenSd, seenSd],
    };
  }
  const { lab, sdLab = [plainSd, plainSd, plainSd] } = black;
  return { lab, sdLab: [...sdLab] as [number, number, number] };
}

/** Why the answer is common practice and not this shop's own. */
export function practiceOnly(ladderId: string | undefined, hasWindow: boolean): string[] {
  if (hasWindow) return ['The ladder here says nothing of black: judge its blacks or scan them.'];
  return [
    ladderId === undefined
      ? 'There is no ladder of this blank yet that could say how much.'
      : 'That ladder has no window yet, so it could not be asked.',
  ];
}
