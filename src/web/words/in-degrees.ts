import { celsiusToFahrenheit } from '#craft/units';
import type { TemperatureUnit } from './figures.js';

/** Below this a figure with °C is how far something is off, above it how hot something is: a platen or what lies in it. */
const leastHot = 60;

/** Words before a figure that make even a small one a temperature: 'until it is below 48 °C'. */
const saysHot = /(?:\b(?:below|above|until|reaches|still)|\bgets no hotter than)\s*$/;

const figure = '[−-]?\\d+(?:\\.\\d+)?';
const gap = '[\\s\u00a0\u202f]?';
/** '194 °C', '5.2 °C', '±3 °C', '20 to 24 °C', '198 °C (186 to 203)', and 'set 205 for 200', '(set 209)' without a unit. */
const said = new RegExp(
  `set (\\d+) for (\\d+)(?!${gap}°C)|\\(set (\\d+)\\)|(?:(${figure})(${gap}(?:to|–|and)${gap}))?(${figure})(${gap})°C(?: \\((${figure}) to (${figure})\\))?`,
  'g',
);

/**
 * A sentence of the server's in the person's degrees. It is written in Celsius; temperatures are turned to Fahrenheit
 * with their zero, differences without. Makers' and standards' figures are turned alike.
 */
export function inDegrees(sentence: string, unit: TemperatureUnit): string {
  if (unit === 'C') return sentence;
  return ofEnds(sentence)
    .replaceAll('figures in °C', 'figures in °F')
    .replace(said, (...found) => {
      const [whole, set, wanted, alone, from, link, value, space, low, high] = found as (
        | string
        | undefined
      )[];
      const at = found.find((part) => typeof part === 'number') as number;
      if (set !== undefined) return `set ${hot(set)} for ${hot(wanted!)}`;
      if (alone !== undefined) return `(set ${hot(alone)})`;
      const before = (found.at(-1) as unknown as string).slice(0, at);
      const isHot = Math.abs(number(value!)) >= leastHot || saysHot.test(before);
      const turned = isHot ? hot : off;
      const head = from === undefined ? '' : `${turned(from)}${link}`;
      const tail = low === undefined ? '' : ` (${turned(low)} to ${turned(high!)})`;
      return whole === undefined ? '' : `${head}${turned(value!)}${space}°F${tail}`;
    });
}

/** A difference said beside its two ends is that of the ends as they are said. */
const ofEnds = (sentence: string): string =>
  sentence.replace(
    /differs by \d+ °C: (\d+) °C (.*?), (\d+) °C/,
    (_, high: string, where: string, low: string) =>
      `differs by ${Number(hot(high)) - Number(hot(low))} °F: ${hot(high)} °F ${where}, ${hot(low)} °F`,
  );

const number = (text: string): number => Number(text.replace('−', '-'));
const hot = (text: string): string => String(Math.round(celsiusToFahrenheit(number(text))));

function off(text: string): string {
  const kelvin = number(text);
  const value = 1.8 * kelvin;
  // As exact as it was said: 0.8 becomes 1.4, 5 becomes 9.
  const digits = text.includes('.') && Math.abs(value) < 10 ? 1 : 0;
  return value.toFixed(digits).replace('-', text.startsWith('−') ? '−' : '-');
}
