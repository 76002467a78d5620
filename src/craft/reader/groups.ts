import type { Triple } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import { distance, encodeLight } from './encode-light.js';

/** Seen and measured as near as this, two pairs show one colour: neither may vouch for the other. */
const sameLight = 0.008;
const sameLab = 1;

/** Indices of pairs that show the same colour, each index once. */
export function sameColours(rgb: readonly LinearRgb[], lab: readonly Triple[]): number[][] {
  const light = rgb.map(encodeLight);
  const groups: number[][] = [];
  light.forEach((one, i) => {
    const group = groups.find(
      ([first]) => distance(light[first!]!, one) < sameLight && distance(lab[first!]!, lab[i]!) < sameLab,
    );
    if (group) group.push(i);
    else groups.push([i]);
  });
  return groups;
}

/** How far, in encoded light, a colour may lie from all pairs and still be known: twice what is usual among them. */
export function reachOf(rgb: readonly LinearRgb[], groups: readonly (readonly number[])[]): number {
  const light = groups.map(([first]) => encodeLight(rgb[first!]!));
  const gaps = light
    .map((one, i) => Math.min(...light.filter((_, j) => j !== i).map((other) => distance(one, other))))
    .sort((a, b) => a - b);
  return Math.max(0.03, 2 * (gaps[Math.floor(0.95 * gaps.length)] ?? 0));
}
