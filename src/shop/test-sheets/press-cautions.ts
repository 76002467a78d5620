import type { Blank, Press } from '#contract';
import { cautionsFor } from '#craft/heat';

/** The cautions of heat that hold for this blank on this press, the maker's word before them. */
export const pressCautions = (blank: Blank, press: Press | null): string[] => [
  'The maker’s instructions for press, blank, ink and paper come before anything on this page.',
  ...cautionsFor({ material: blank.material, kind: press?.kind ?? 'flat', watts: press?.watts }).map(
    ({ text }) => text,
  ),
];
