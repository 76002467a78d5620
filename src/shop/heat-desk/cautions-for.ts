import type { Blank, CautionFacts, Press, PressKind } from '#contract';
import { cautionsFor as ofPressing } from '#craft/heat';

/** The cautions that concern this blank on this kind of press, what burns first. */
export const cautionsFor = (blank: Blank | null, kind: PressKind, press: Press | null): CautionFacts[] =>
  ofPressing({ material: blank?.material ?? null, kind, watts: press?.watts }).map((caution) => ({
    ...caution,
  }));
