import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';

/** Source Sans 3 (SIL Open Font Licence) as it comes in the package: one file a script range. */
const ranges = [
  'latin',
  'latin-ext',
  'greek',
  'greek-ext',
  'cyrillic',
  'cyrillic-ext',
  'vietnamese',
] as const;
export type FontRange = (typeof ranges)[number];
export type FontWeight = 400 | 600 | 700;

interface FontFace {
  readonly range: FontRange;
  readonly bytes: Buffer;
  readonly font: fontkit.Font;
}

const loaded = new Map<string, FontFace | null>();
const require = createRequire(import.meta.url);

function load(range: FontRange, weight: FontWeight): FontFace | null {
  const key = `${range}-${weight}`;
  const known = loaded.get(key);
  if (known !== undefined) return known;
  let face: FontFace | null = null;
  try {
    const file = require.resolve(`@fontsource/source-sans-3/files/source-sans-3-${key}-normal.woff`);
    const bytes = readFileSync(file);
    const font = fontkit.create(bytes);
    if ('glyphForCodePoint' in font) face = { range, bytes, font: font as fontkit.Font };
  } catch {
    // A range that the package lacks is only a range whose letters are shown as boxes.
  }
  loaded.set(key, face);
  return face;
}

/** The bytes of a font file (WOFF), for embedding. */
export function fontBytes(range: FontRange, weight: FontWeight): Buffer | null {
  return load(range, weight)?.bytes ?? null;
}

/** A stretch of text that one font file can set; `face` null: no file has these letters. */
export interface FontRun {
  readonly text: string;
  readonly face: FontFace | null;
}

/** Split text by the font files that hold its letters. */
export function fontRuns(text: string, weight: FontWeight): FontRun[] {
  const runs: { text: string; face: FontFace | null }[] = [];
  for (const letter of text.normalize('NFC')) {
    const face = faceFor(letter.codePointAt(0)!, weight);
    const last = runs.at(-1);
    if (last !== undefined && last.face === face) last.text += letter;
    else runs.push({ text: letter, face });
  }
  return runs;
}

function faceFor(codePoint: number, weight: FontWeight): FontFace | null {
  for (const range of ranges) {
    const face = load(range, weight);
    if (face?.font.hasGlyphForCodePoint(codePoint)) return face;
  }
  return null;
}
