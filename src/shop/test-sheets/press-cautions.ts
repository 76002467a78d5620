import type { Blank, Press } from '#contract';
import { heatCautions } from '#craft/heat';

type CautionId = (typeof heatCautions)[number]['id'];

/** The cautions of heat that hold for this blank on this press, the maker's word before them. */
export function pressCautions(blank: Blank, press: Press | null): string[] {
  const isBrittle = ['glass', 'ceramic', 'slate'].includes(blank.material);
  const holds: Readonly<Record<CautionId, boolean>> = {
    hot: true,
    fumes: true,
    ptfe: true,
    // Cloth is rolled, not wiped.
    solvent: blank.material !== 'textile',
    glass: isBrittle,
    oven: press?.kind === 'oven',
    // A mug press takes 300 to 500 W; a usual circuit of 120 V carries 1440 W for long.
    circuit: press?.watts == null ? press?.kind !== 'mug' : press.watts >= 1000,
  };
  return [
    'The maker’s instructions for press, blank, ink and paper come before anything on this page.',
    ...heatCautions.filter(({ id }) => holds[id]).map(({ text }) => text),
  ];
}
