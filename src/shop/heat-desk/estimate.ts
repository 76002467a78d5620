import type { EstimateFacts } from '#contract';
import { quantile } from '#craft/heat';

/** The best guess, and between what nine in ten of the samples lie. */
export function estimateOf(value: number, samples: readonly number[]): EstimateFacts {
  const rising = Float64Array.from(samples).sort();
  const [low, high] = [quantile(rising, 0.05), quantile(rising, 0.95)];
  return { value, low: Math.min(low, value), high: Math.max(high, value) };
}

/** '24 s (18 to 33)' */
export function inWords({ value, low, high }: EstimateFacts, unit: string): string {
  const [v, l, h] = [value, low, high].map(short);
  return l === h ? `${v} ${unit}` : `${v} ${unit} (${l} to ${h})`;
}

/** Two figures where it is small, whole numbers above. */
export function short(value: number): string {
  return Math.abs(value) < 9.95 ? String(Math.round(value * 10) / 10) : String(Math.round(value));
}
