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
    solvent: true,
    glass: isBrittle,
    oven: press?.kind === 'oven',
    circuit: true,
  };
  return [
    'The maker’s instructions for press, blank, ink and paper come before anything on this page.',
    ...heatCautions.filter(({ id }) => holds[id]).map(({ text }) => text),
  ];
}
