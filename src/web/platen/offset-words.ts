import type { PlatenCheck } from '#contract';
import { inDegrees, type TemperatureUnit } from '../words/index.js';

const exampleF = 400;

/** The first sentence of a check; in Fahrenheit from its figures, so that it is not rounded twice. */
export function offsetWords(check: PlatenCheck, unit: TemperatureUnit): string {
  const words = check.sentences[0] ?? 'Measured.';
  if (unit === 'C') return words;
  const offF = Math.round(1.8 * check.offsetK.value);
  const plain = /^The platen is \d+ °C (?:cooler|hotter) than it says: set \d+ for \d+\./;
  if (offF === 0 || !plain.test(words))
    return inDegrees(words, unit).replace(/set \d+ for \d+\.$/, `set ${exampleF} for ${exampleF}.`);
  const way = offF < 0 ? 'cooler' : 'hotter';
  const first = `The platen is ${Math.abs(offF)} °F ${way} than it says: set ${exampleF - offF} for ${exampleF}.`;
  return first + inDegrees(words.replace(plain, ''), unit);
}
