import { colourQuestionSchema } from '#contract';
import { labFromSrgb, type Triple3 } from '#craft/colour';
import type { WantedColour } from '#craft/pathlook';
import { checked } from '#shop/validate';

/** Errors: request.invalid. */
export function askedColours(question: unknown): WantedColour[] {
  const { colours } = checked(colourQuestionSchema, question, 'The colours asked for cannot be understood');
  return colours.map((one) =>
    'hex' in one
      ? { lab: labFromSrgb(unitRgb(one.hex)), isAbsolute: false }
      : { lab: one.lab, isAbsolute: one.white === 'absolute' },
  );
}

/** '#rrggbb' → 0..1. */
export function unitRgb(hex: string): Triple3 {
  const value = Number.parseInt(hex.slice(1), 16);
  return [(value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}
