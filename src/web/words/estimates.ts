import type { EstimateFacts } from '#contract';
import { celsiusToFahrenheit } from '#craft/units';
import { signed } from './differences.js';
import type { TemperatureUnit } from './figures.js';

/** Decimals that are worth showing: none from ten up, one below. */
const worth = (size: number): number => (Math.abs(size) >= 10 ? 0 : 1);
const plain = (value: number, decimals: number): string => {
  const text = signed(value, decimals);
  return text.includes('.') ? text.replace(/\.0$/, '') : text;
};

/** '24 s (18 to 33)': the figure with the range in which it lies in nine of ten cases. */
export function estimateText(estimate: EstimateFacts, unit: string): string {
  const decimals = worth(Math.max(Math.abs(estimate.low), Math.abs(estimate.high)));
  return `${plain(estimate.value, decimals)}\u00a0${unit} (${plain(estimate.low, decimals)}\u00a0to\u00a0${plain(estimate.high, decimals)})`;
}

/** A difference of temperature, kept in kelvin, in the person's degrees: '−4 °C', '+7 °F'. */
export function differenceK(kelvin: number, unit: TemperatureUnit): string {
  const value = unit === 'C' ? kelvin : kelvin * 1.8;
  const text = plain(value, worth(value));
  return `${value > 0 && text !== '0' ? '+' : ''}${text}\u00a0°${unit}`;
}

/** The same without its sign, for 'cooler' and 'hotter'. */
export const sizeK = (kelvin: number, unit: TemperatureUnit): string =>
  differenceK(Math.abs(kelvin), unit).replace('+', '');

/** Celsius as a number in the person's unit. */
export const toDegrees = (celsius: number, unit: TemperatureUnit): number =>
  unit === 'C' ? celsius : celsiusToFahrenheit(celsius);

/** Shown in minutes and seconds where that reads better: '1 min 20 s', '24 s'. */
export const secondsText = (seconds: number): string => {
  const whole = Math.round(seconds);
  if (whole < 90) return `${whole}\u00a0s`;
  const minutes = Math.floor(whole / 60);
  const rest = whole % 60;
  return rest === 0 ? `${minutes}\u00a0min` : `${minutes}\u00a0min ${rest}\u00a0s`;
};

/** '24 s (18 to 33 s)', for times of any length. */
export const secondsRangeText = (estimate: EstimateFacts): string =>
  `${secondsText(estimate.value)} (${secondsText(estimate.low)} to ${secondsText(estimate.high)})`;
