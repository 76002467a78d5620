import type { Triple } from './triple.js';

/** 0..255, rounded and clipped → '#1a2b3c' (CSS Color 4, 5.2). */
export function formatHex(rgb8: Triple): string {
  return `#${rgb8
    .map((v) =>
      Math.round(Math.min(255, Math.max(0, v)))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}
