import { srgbToLinear } from '#craft/colour';
import { luminance } from './picture.js';
import type { LinearRgb } from './types.js';

/** A patch's device colour and how it was seen. */
export interface SeenColour {
  readonly deviceRgb: readonly number[];
  readonly rgb: LinearRgb;
}

/**
 * Whether the picture's colours stand where the sheet has them, −1..1: Spearman's rank correlation (Am. J. Psychol.
 * 15, 1904) of lightness asked for and lightness seen. Any printer that prints light colours light comes near 1;
 * patches assigned to wrong places come near 0.
 */
export function agreement(patches: readonly SeenColour[]): number {
  const asked = ranks(
    patches.map(({ deviceRgb }) =>
      luminance(deviceRgb.map((v) => srgbToLinear(v / 255)) as unknown as LinearRgb),
    ),
  );
  const seen = ranks(patches.map(({ rgb }) => luminance(rgb)));
  const mean = (patches.length - 1) / 2;
  let both = 0;
  let one = 0;
  let other = 0;
  asked.forEach((a, i) => {
    both += (a - mean) * (seen[i]! - mean);
    one += (a - mean) ** 2;
    other += (seen[i]! - mean) ** 2;
  });
  return one > 0 && other > 0 ? both / Math.sqrt(one * other) : 0;
}

/** 0, 1, 2… with ties sharing their mean. */
function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const rank = new Array<number>(values.length).fill(0);
  for (let i = 0; i < order.length; ) {
    let end = i + 1;
    while (end < order.length && values[order[end]!] === values[order[i]!]) end += 1;
    for (let k = i; k < end; k += 1) rank[order[k]!] = (i + end - 1) / 2;
    i = end;
  }
  return rank;
}
