import { celsiusToFahrenheit, fahrenheitToCelsius } from '#craft/units';
import { roundTicks } from '../../charts/index.js';
import type { TemperatureUnit } from '../../words/index.js';

/** Ticks in °C that are round in the person's unit. */
export const degreeTicks = (minC: number, maxC: number, most: number, unit: TemperatureUnit): number[] =>
  unit === 'C'
    ? roundTicks(minC, maxC, most)
    : roundTicks(celsiusToFahrenheit(minC), celsiusToFahrenheit(maxC), most).map(fahrenheitToCelsius);
