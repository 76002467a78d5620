import { cutOfHue, type Surface } from './mesh.js';

/**
 * Hues by common name, CIELAB degrees (D50). sRGB's own corners lie at 41 (red), 100 (yellow), 134 (green), 197 (cyan),
 * 301 (blue) and 327 (magenta), worked out with culori; the names between are everyday ones.
 */
export const namedHues = [
  { name: 'Rose', degrees: 10 },
  { name: 'Red', degrees: 40 },
  { name: 'Orange', degrees: 65 },
  { name: 'Yellow', degrees: 98 },
  { name: 'Leaf green', degrees: 125 },
  { name: 'Green', degrees: 150 },
  { name: 'Sea green', degrees: 175 },
  { name: 'Turquoise', degrees: 200 },
  { name: 'Sky blue', degrees: 245 },
  { name: 'Blue', degrees: 285 },
  { name: 'Violet', degrees: 310 },
  { name: 'Magenta', degrees: 335 },
] as const;

export interface HueReach {
  readonly name: string;
  readonly degrees: number;
  /** The strongest colour of this hue: chroma C*ab and its lightness. */
  readonly chroma: number;
  readonly lightness: number;
  /** The same of the surface compared with. */
  readonly otherChroma: number;
}

export function reachByHue(surface: Surface, other: Surface): HueReach[] {
  return namedHues.map(({ name, degrees }) => {
    const most = strongest(surface, degrees);
    return { name, degrees, ...most, otherChroma: strongest(other, degrees).chroma };
  });
}

function strongest(surface: Surface, degrees: number): { chroma: number; lightness: number } {
  let most = { chroma: 0, lightness: 0 };
  for (const end of cutOfHue(surface, degrees)) if (end.chroma > most.chroma) most = end;
  return most;
}

/** 'It gives strong magentas and yellows; greens stay well short of a screen.' from the table. */
export function reachSentence(rows: readonly HueReach[]): string {
  const share = (row: HueReach) => (row.otherChroma > 0 ? row.chroma / row.otherChroma : 1);
  const byShare = [...rows].sort((one, two) => share(two) - share(one));
  const beyond = byShare.filter((row) => share(row) > 1.02).slice(0, 3);
  const short = byShare
    .filter((row) => share(row) < 0.85)
    .slice(-3)
    .reverse();
  const names = (list: readonly HueReach[]) =>
    list
      .map((row) => row.name.toLowerCase())
      .reduce((text, name, i) => {
        if (i === 0) return name;
        return i === list.length - 1 ? `${text} and ${name}` : `${text}, ${name}`;
      }, '');
  const parts = [
    beyond.length > 0 ? `Goes further than a screen in ${names(beyond)}` : '',
    short.length > 0 ? `${beyond.length > 0 ? 'falls' : 'Falls'} shortest in ${names(short)}` : '',
  ].filter((part) => part !== '');
  return parts.length > 0 ? `${parts.join('; ')}.` : 'Reaches about as far as a screen in every hue.';
}
