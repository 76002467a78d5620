import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Common practice of the trade, no published source: below about 65 % polyester a print comes out faded. */
const enoughPolyesterPercent = 65;

/** Whether the dye finds anything to stay in. */
export function checkBlank({ blank }: SheetUnderCheck): SheetCheck[] {
  const { coating, polyesterPercent } = blank;
  if (coating.kind === 'none')
    return [uncoated(`${blank.name} has no coat that takes dye: nothing stays on it.`)];
  if (coating.kind !== 'fibre') return [];
  if (polyesterPercent === null) {
    return [
      {
        code: 'blank.polyester-unknown',
        level: 'note',
        title: 'The polyester content of this cloth is not recorded',
        detail: 'Dye stays only in polyester; how vivid the print becomes depends on its share.',
        remedy: 'Read the label and put the polyester share into the blank.',
        value: null,
        unit: null,
      },
    ];
  }
  if (polyesterPercent === 0) {
    return [uncoated(`${blank.name} holds no polyester: the dye washes out.`)];
  }
  if (polyesterPercent >= enoughPolyesterPercent) return [];
  return [
    {
      code: 'blank.little-polyester',
      level: 'look',
      title: 'The print will look faded on this cloth',
      detail:
        `${polyesterPercent} % polyester: the other ${100 - polyesterPercent} % of the cloth takes no dye. ` +
        `Below about ${enoughPolyesterPercent} % prints come out faded, and more so after washing (common practice).`,
      remedy: `Press a trial first, or take cloth with at least ${enoughPolyesterPercent} % polyester.`,
      value: polyesterPercent,
      unit: '% polyester',
    },
  ];
}

function uncoated(detail: string): SheetCheck {
  return {
    code: 'blank.uncoated',
    level: 'stop',
    title: 'Nothing would stay on this blank',
    detail: `${detail} Sublimation dye needs polyester: a polymer coat or polyester cloth.`,
    remedy: 'Choose a blank made for sublimation; if yours is coated, say so in the blank.',
    value: null,
    unit: null,
  };
}
