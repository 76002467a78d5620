import type { Ladder } from '#contract';
import { spokenSheetId } from '#craft/sheet';
import { table } from '../say.js';

/** Where a ladder stands, what it rests on, and what to press next. */
export function ladderWords({ sheetId, blankName, standing, window }: Ladder): string {
  const head = `Ladder ${spokenSheetId(sheetId)}, ${blankName}.`;
  if (window === null) return `${head}\n${standing}`;
  const { fromSeconds, toSeconds, recipe, activation, isSure, next, remarks } = window;
  const { coolerK, hotterK } = recipe.tolerance;
  const three = ({ value, low, high }: { value: number; low: number; high: number }): string =>
    `${value.toFixed(0)} s (${low.toFixed(0)} to ${high.toFixed(0)})`;
  return [
    head,
    window.words,
    `At ${window.platenC} °C all is well from ${three(fromSeconds)} to ${three(toSeconds)}; before it: ${window.opens}, after it: ${window.closes}.`,
    // Rounded down, as the seconds in the window's own words are: a tolerance is no place to round up.
    `In temperature it bears ${degrees(coolerK)} less or ${degrees(hotterK)} more.`,
    `Activation energy ${activation.kJPerMol.value.toFixed(0)} kJ/mol (${activation.kJPerMol.low.toFixed(0)} to ${activation.kJPerMol.high.toFixed(0)}). ${activation.basis}`,
    ...(isSure
      ? ['A further coupon would not move the recipe by more than the press repeats itself.']
      : next.slice(0, 1).map(({ words }) => words)),
    ...remarks.filter((remark) => remark !== activation.basis),
  ].join('\n');
}

const degrees = (kelvin: number): string => (kelvin < 1 ? 'hardly any' : `${Math.floor(kelvin)} °C`);

/** Every coupon in the order it was pressed. */
export function ladderTable({ coupons }: Ladder): string {
  return table(
    ['coupon', 'set °C', 'true °C', 's', 'black', 'edge µm', 'by eye', 'remarks'],
    coupons.map(({ number, setC, step, pressed, values, byEye, leftOut, remarks }) => {
      const { platenC, dwellSeconds } = pressed ?? step;
      const density = values?.density?.black;
      return [
        String(number),
        pressed === null ? String(setC) : '',
        String(platenC),
        String(dwellSeconds),
        density ? `${density.value.toFixed(2)} ± ${density.sd.toFixed(2)}` : '',
        values?.edgeUm ? `${values.edgeUm.value.toFixed(0)} ± ${values.edgeUm.sd.toFixed(0)}` : '',
        [byEye?.black, byEye?.edges].filter(Boolean).join(', '),
        [...(leftOut ? ['left out'] : []), ...remarks].join(' '),
      ];
    }),
  );
}
