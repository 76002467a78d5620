import type { Blank, CautionFacts, Press, PressKind } from '#contract';
import { heatCautions } from '#craft/heat';

const brittle: readonly Blank['material'][] = ['ceramic', 'glass', 'slate'];

/** The cautions that concern this blank on this kind of press, what burns first. */
export function cautionsFor(blank: Blank | null, kind: PressKind, press: Press | null): CautionFacts[] {
  const wanted: Record<CautionFacts['id'], boolean> = {
    hot: true,
    fumes: true,
    ptfe: true,
    solvent: blank === null || blank.material !== 'textile',
    glass: blank === null || brittle.includes(blank.material),
    oven: kind === 'oven',
    // A mug press takes 300 to 500 W; 1440 W is what such a circuit carries for long.
    circuit: press?.watts == null ? kind !== 'mug' : press.watts >= 1000,
  };
  return heatCautions.filter(({ id }) => wanted[id]).map((caution) => ({ ...caution }));
}
