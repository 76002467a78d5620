import type { TextStyle } from './typesetter.js';

/** A4, points. */
export const page = { width: 595.28, height: 841.89, margin: 46 } as const;

const inner = page.width - 2 * page.margin;
const columnGap = 26;
const half = (inner - columnGap) / 2;
/** Of a page: its width within the margins, a column's, and where the right one begins. */
export const columns = { inner, half, right: page.margin + half + columnGap } as const;
export const footerHeight = 62;

export const colours = {
  ink: '#2a2622',
  soft: '#6b6259',
  rule: '#d8d0c5',
  /** The one accent: fired clay. */
  accent: '#8c4a2f',
  wash: '#f6f2ec',
  /** Neutral, as surrounds of pictures should be. */
  surround: '#c4c4c4',
} as const;

export const styles = {
  label: { size: 8.5, weight: 600, colour: colours.soft, spacing: 0.5 },
  title: { size: 23, weight: 600, colour: colours.ink, leading: 1.15 },
  under: { size: 12, colour: colours.soft },
  sheetId: { size: 15, weight: 600, colour: colours.ink, spacing: 0.6 },
  figure: { size: 34, weight: 600, colour: colours.ink, leading: 1.1 },
  figureSmall: { size: 17, weight: 400, colour: colours.soft, leading: 1.2 },
  heading: { size: 12.5, weight: 600, colour: colours.accent },
  body: { size: 10.5, colour: colours.ink, leading: 1.4 },
  strong: { size: 10.5, weight: 600, colour: colours.ink, leading: 1.4 },
  note: { size: 8.5, colour: colours.soft, leading: 1.4 },
} as const satisfies Record<string, TextStyle>;

export function scaled(style: TextStyle, scale: number): TextStyle {
  return { ...style, size: style.size * scale };
}
