import type { ShopPreferences } from '#contract';
import { celsiusToFahrenheit, inchesToMm, mmToInches } from '#craft/units';

export type LengthUnit = ShopPreferences['lengthUnit'];
export type TemperatureUnit = ShopPreferences['temperatureUnit'];

export const unitName = { mm: 'millimetres', in: 'inches', C: 'Celsius', F: 'Fahrenheit' } as const;

/** Millimetres as a number in the person's unit, and back. */
export const toUnit = (mm: number, unit: LengthUnit): number => (unit === 'mm' ? mm : mmToInches(mm));
export const fromUnit = (value: number, unit: LengthUnit): number =>
  unit === 'mm' ? value : inchesToMm(value);

/** Decimals shown: a tenth of a millimetre, a hundredth of an inch is coarser than needed, so three. */
export const lengthDecimals = (unit: LengthUnit): number => (unit === 'mm' ? 1 : 3);

const plain = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return (short === '-0' ? '0' : short).replace('-', '\u2212');
};

export const lengthText = (mm: number, unit: LengthUnit): string =>
  `${plain(toUnit(mm, unit), lengthDecimals(unit))}\u00a0${unit}`;

/** Thicknesses from a coat to a tile: '25 µm', '0.35 mm', '4 mm'; '0.001 in'. */
export const thicknessText = (mm: number, unit: LengthUnit): string => {
  if (unit === 'in') return `${plain(mmToInches(mm), 3)}\u00a0in`;
  return mm < 0.1 ? `${plain(mm * 1000, 0)}\u00a0µm` : `${plain(mm, mm < 1 ? 2 : 1)}\u00a0mm`;
};

export const sizeText = (widthMm: number, heightMm: number, unit: LengthUnit): string =>
  `${plain(toUnit(widthMm, unit), lengthDecimals(unit))}\u00a0×\u00a0${lengthText(heightMm, unit)}`;

export const temperatureText = (celsius: number, unit: TemperatureUnit): string =>
  unit === 'C' ? `${plain(celsius, 0)}\u00a0°C` : `${plain(celsiusToFahrenheit(celsius), 0)}\u00a0°F`;

export const timeText = (seconds: number): string => {
  const minutes = Math.floor(seconds / 60);
  const rest = seconds % 60;
  if (minutes === 0) return `${rest}\u00a0s`;
  return rest === 0 ? `${minutes}\u00a0min` : `${minutes}\u00a0min ${rest}\u00a0s`;
};

export const percentText = (share: number): string => {
  const percent = share * 100;
  if (percent > 0 && percent < 0.1) return 'under 0.1\u00a0%';
  return `${plain(percent, percent < 10 ? 1 : 0)}\u00a0%`;
};

export const bytesText = (bytes: number): string => {
  if (bytes < 1000) return `${bytes} B`;
  if (bytes < 1e6) return `${plain(bytes / 1e3, 0)} kB`;
  return `${plain(bytes / 1e6, 1)} MB`;
};

export const dayText = (iso: string): string =>
  new Date(iso).toLocaleDateString(undefined, { day: 'numeric', month: 'long', year: 'numeric' });

/** Day and time, to tell readings of one day apart. */
export const momentText = (iso: string): string =>
  new Date(iso).toLocaleString(undefined, {
    day: 'numeric',
    month: 'long',
    hour: '2-digit',
    minute: '2-digit',
  });
