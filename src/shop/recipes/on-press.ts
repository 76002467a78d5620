import type { RecipeOnPress, RecipeVersion } from '#contract';
import { safetyBoundC } from '#craft/heat';
import { inWords, short } from '#shop/heat-desk';
import type { PressOffset } from '#shop/presses';

/** What to set for a true temperature: that less the press's offset, in whole degrees. */
export const setFor = (platenC: number, offset: Pick<PressOffset, 'offsetK'>): number =>
  Math.round(platenC - (offset.offsetK?.value ?? 0));

/** What a recipe means on a press. `pressId` null: no press is named, and set temperatures are taken as true. */
export function onPress(
  { blankId, recipe }: Pick<RecipeVersion, 'blankId' | 'recipe'>,
  pressId: string | null,
  offset: PressOffset,
): RecipeOnPress {
  const setC = setFor(recipe.platenC, offset);
  return {
    blankId,
    pressId,
    platenC: recipe.platenC,
    setC,
    offsetK: offset.offsetK,
    checkId: offset.checkId,
    words: wordsOf(recipe.platenC, setC, offset),
  };
}

function wordsOf(platenC: number, setC: number, { offsetK, pressName }: PressOffset): string {
  const set = `Set ${setC} °C`;
  if (pressName === null) return `${set}: no press is named, so its display is taken as true.`;
  if (offsetK === null)
    return `${set}: nobody measured how hot “${pressName}” really gets, and several degrees off are common.`;
  const { value, low, high } = offsetK;
  const off = Math.abs(value);
  if (off < 0.5) return `${set}: “${pressName}” is as hot as it says, ${within(low, high)}.`;
  const how = inWords(
    {
      value: off,
      low: Math.min(Math.abs(low), Math.abs(high)),
      high: Math.max(Math.abs(low), Math.abs(high)),
    },
    '°C',
  );
  const range = low < 0 === high < 0 ? how : `${short(off)} °C, ${within(low, high)},`;
  const bound =
    setC > safetyBoundC
      ? ` That is above ${safetyBoundC} °C on its display: have the press looked over first.`
      : '';
  return `${set} for ${short(platenC)} °C: “${pressName}” is ${range} ${value < 0 ? 'cooler' : 'hotter'} than it says.${bound}`;
}

/** '± 2 °C' */
const within = (low: number, high: number): string => `± ${short((high - low) / 2)} °C`;
