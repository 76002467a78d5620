import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';

export type LetteringWeight = 400 | 600 | 900;

/** Letters as outlines: machines have no fonts to count on, so no SVG of ours has text in it. */
export interface Lettering {
  /** SVG path data; baseline at y = 0, starting at x = 0, y down. */
  readonly path: string;
  readonly width: number;
}

interface Glyph {
  readonly path: {
    scale(
      x: number,
      y: number,
    ): {
      toSVG(): string;
      translate(x: number, y: number): { toSVG(): string; rotate(angle: number): Outline };
    } & Outline;
  };
  readonly advanceWidth: number;
}
interface Outline {
  toSVG(): string;
  translate(x: number, y: number): Outline;
  rotate(radians: number): Outline;
}
interface Face {
  readonly unitsPerEm: number;
  layout(text: string): { glyphs: Glyph[]; positions: { xAdvance: number }[] };
}

const faces = new Map<LetteringWeight, Face>();
const require = createRequire(import.meta.url);

function face(weight: LetteringWeight): Face {
  const known = faces.get(weight);
  if (known !== undefined) return known;
  const file = require.resolve(`@fontsource/source-sans-3/files/source-sans-3-latin-${weight}-normal.woff`);
  const made = fontkit.create(readFileSync(file)) as unknown as Face;
  faces.set(weight, made);
  return made;
}

interface Style {
  readonly size: number;
  readonly weight: LetteringWeight;
  /** Extra space between letters, em. */
  readonly tracking?: number;
}

/** A straight line of letters. */
export function letters(text: string, style: Style): Lettering {
  const { placed, width } = place(text, style);
  return { path: placed.map(({ outline, x }) => outline.translate(x, 0).toSVG()).join(''), width };
}

/** Letters round a circle of `radius` about (0, 0), their middle at `degrees` (0 = top, clockwise), feet inward. */
export function lettersRound(
  text: string,
  style: Style & { radius: number; degrees: number; feetOut?: boolean },
): string {
  const { placed, width } = place(text, style);
  const turn = style.feetOut ? -1 : 1;
  return placed
    .map(({ outline, x, advance }) => {
      const middle = ((x + advance / 2 - width / 2) / style.radius) * turn + (style.degrees * Math.PI) / 180;
      const upright = outline.translate(-advance / 2, 0).rotate(style.feetOut ? middle + Math.PI : middle);
      return upright.translate(style.radius * Math.sin(middle), -style.radius * Math.cos(middle)).toSVG();
    })
    .join('');
}

function place(
  text: string,
  style: Style,
): { placed: { outline: Outline; x: number; advance: number }[]; width: number } {
  const font = face(style.weight);
  const scale = style.size / font.unitsPerEm;
  const gap = (style.tracking ?? 0) * style.size;
  const run = font.layout(text);
  let x = 0;
  const placed = run.glyphs.map((glyph, index) => {
    const advance = run.positions[index]!.xAdvance * scale;
    const one = { outline: glyph.path.scale(scale, -scale) as Outline, x, advance };
    x += advance + gap;
    return one;
  });
  return { placed, width: x - gap };
}
