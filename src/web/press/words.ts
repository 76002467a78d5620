import type { FactorKindName, Ladder, PressStepFacts } from '#contract';
import { secondsText, type TemperatureUnit, temperatureText } from '../words/index.js';

export const factorNames: Record<FactorKindName, string> = {
  time: 'time',
  temperature: 'temperature',
  pressure: 'pressure',
};

/** 'time and temperature' */
export const factorsText = (factors: readonly FactorKindName[]): string =>
  factors.map((kind) => factorNames[kind]).join(' and ');

export const barText = (bar: number): string => `${Number(bar.toFixed(2))}\u00a0bar`;

/** '203 °C · 55 s · 1.8 bar'; the temperature as given: true, or as the display is set. */
export const stepText = (step: PressStepFacts, degreesC: number, unit: TemperatureUnit): string =>
  [
    temperatureText(degreesC, unit),
    secondsText(step.dwellSeconds),
    ...(step.pressureBar === undefined ? [] : [barText(step.pressureBar)]),
  ].join(' · ');

/** What a coupon was really pressed at, as far as anybody said. */
export const pressedStep = (coupon: Ladder['coupons'][number]): PressStepFacts =>
  coupon.pressed ?? coupon.step;

const small = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];
export const inWords = (count: number): string => small[count] ?? String(count);
