import { Problem } from '#craft/problem';
import type { Triple, Triple3 } from './triple.js';

/** '#1a2b3c' or '#abc' (CSS Color 4, 5.2), with or without '#', → 0..255. Throws Problem `request.invalid`. */
export function parseHex(text: string): Triple3 {
  const digits = /^#?([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(text.trim())?.[1];
  if (digits === undefined) {
    throw new Problem('request.invalid', `“${text.slice(0, 40)}” is not a colour in hexadecimal.`, {
      remedy: 'Write it as six digits, such as #1a2b3c.',
    });
  }
  const full = digits.length === 3 ? [...digits].map((d) => d + d).join('') : digits;
  const value = Number.parseInt(full, 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
}

/** 0..255, rounded and clipped → '#1a2b3c'. */
export function formatHex(rgb8: Triple): string {
  return `#${rgb8
    .map((v) =>
      Math.round(Math.min(255, Math.max(0, v)))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}
