/** What can hurt a person, with what it rests on. The maker's instructions come before all of them. */
export interface Caution {
  readonly id: 'hot' | 'fumes' | 'ptfe' | 'solvent' | 'glass' | 'oven' | 'circuit';
  readonly text: string;
  readonly basis: string;
}

export const heatCautions: readonly Caution[] = [
  {
    id: 'hot',
    text: 'Platen and piece burn at once: heat gloves, and nobody reaches in while the press closes.',
    basis: 'Metal at 65 to 70 °C burns in about a second (from memory; ISO 13732-1 defines the thresholds).',
  },
  {
    id: 'fumes',
    text: 'Air the room: hot ink and coatings give off vapour.',
    basis: 'Precaution; see the safety data sheets of ink and blanks.',
  },
  {
    id: 'ptfe',
    text: 'Keep PTFE sheets well below 260 °C, and birds out of the room.',
    basis: 'PTFE degrades from about 260 °C; its fumes harm people and kill birds (encyclopaedia).',
  },
  {
    id: 'solvent',
    text: 'Wipe with alcohol away from the press, and let it dry before anything hot comes near.',
    basis: 'Isopropyl alcohol: flash point about 12 °C, lower explosive limit 2 % (NIOSH).',
  },
  {
    id: 'glass',
    text: 'Glass and tiles crack of sudden cold or heat: soft pad, eye protection, cool slowly in still air.',
    basis: 'Annealed glass cracks at about 40 K of shock (suppliers’ pages).',
  },
  {
    id: 'oven',
    text: 'An oven used for pressing is never used for food again.',
    basis: 'Precaution.',
  },
  {
    id: 'circuit',
    text: 'A press may load a whole circuit: ask an electrician before two run on one.',
    basis: 'A circuit of 15 A and 120 V carries 1440 W for long (forum-grade).',
  },
];
