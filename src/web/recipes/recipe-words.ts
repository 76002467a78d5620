import type { Recipe, RecipeGround } from '#contract';
import {
  differenceK,
  pressureNames,
  secondsText,
  type TemperatureUnit,
  temperatureText,
} from '../words/index.js';

/** What a recipe rests on, in two or three words. */
export const groundNames: Record<RecipeGround['kind'], string> = {
  stock: 'common practice',
  typed: 'typed in',
  ladder: 'measured by a ladder',
  heat: 'carried over by the model of heat',
};

/** How far that can be relied on. */
export const groundMeanings: Record<RecipeGround['kind'], string> = {
  stock: 'Nobody here has measured it. A ladder of a few coupons tells what it should be on your press.',
  typed: 'It is a person’s word, from a leaflet or from experience. A ladder tells how much it bears.',
  ladder: 'It was measured here, with your ink, your press and this coating.',
  heat: 'It is worked out, not pressed. A ladder of a few coupons makes it sure.',
};

/** '200 °C, 55 s, medium pressure' */
export const recipeText = (recipe: Recipe, unit: TemperatureUnit): string =>
  `${temperatureText(recipe.platenC, unit)}, ${secondsText(recipe.dwellSeconds)}, ${pressureNames[recipe.pressure].toLowerCase()} pressure`;

/** What changed from one version to the next: '+5 °C, 10 s less'; empty when nothing of weight did. */
export function changeText(before: Recipe, after: Recipe, unit: TemperatureUnit): string {
  const kelvin = after.platenC - before.platenC;
  const seconds = after.dwellSeconds - before.dwellSeconds;
  return [
    ...(Math.abs(kelvin) >= 0.05 ? [differenceK(kelvin, unit)] : []),
    ...(seconds === 0 ? [] : [`${secondsText(Math.abs(seconds))} ${seconds > 0 ? 'more' : 'less'}`]),
    ...(before.pressure === after.pressure
      ? []
      : [`${pressureNames[after.pressure].toLowerCase()} pressure`]),
  ].join(', ');
}
