import { type Caution, heatCautions } from './cautions.js';

/** What a person is about to press, as far as it is known. */
export interface Pressing {
  /** Of the blank ('glass', 'textile', …); null where no blank is named. */
  readonly material: string | null;
  readonly kind: 'flat' | 'mug' | 'oven';
  /** From the press's plate; null or left out where nobody looked. */
  readonly watts?: number | null | undefined;
}

/** A mug press takes 300 to 500 W, a flat press 1000 and more (common practice). */
const heavyWatts = 1000;

/** The cautions that hold for one way of pressing, what burns first. Where the blank is not known, all of blanks. */
export function cautionsFor({ material, kind, watts }: Pressing): Caution[] {
  const holds: Readonly<Record<Caution['id'], boolean>> = {
    hot: true,
    fumes: true,
    ptfe: true,
    // Cloth is rolled, not wiped.
    solvent: material !== 'textile',
    glass: material === null || ['ceramic', 'glass', 'slate'].includes(material),
    oven: kind === 'oven',
    circuit: watts == null ? kind !== 'mug' : watts >= heavyWatts,
  };
  return heatCautions.filter(({ id }) => holds[id]);
}
