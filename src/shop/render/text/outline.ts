import { type FontWeight, fontRuns } from './fonts.js';

/** A line of text as one SVG path: baseline at y = 0, x from 0, y down, in units of the cap height. */
export interface TextOutline {
  readonly path: string;
  readonly width: number;
  /** Highest and lowest ink, above the baseline negative. */
  readonly top: number;
  readonly bottom: number;
}

/**
 * Outlines from the bundled font, so that no machine's own fonts matter. Letters that the font lacks are drawn
 * as empty boxes: seen, and never a failure.
 */
export function outlineText(text: string, weight: FontWeight = 400): TextOutline {
  const parts: string[] = [];
  let x = 0;
  let top = 0;
  let bottom = 0;
  for (const run of fontRuns(text, weight)) {
    if (run.face === null) {
      for (const _letter of run.text) {
        parts.push(boxAt(x));
        x += 1;
      }
      top = Math.min(top, -1);
      continue;
    }
    const { font } = run.face;
    const scale = 1 / font.capHeight;
    const layout = font.layout(run.text);
    for (const [index, glyph] of layout.glyphs.entries()) {
      const position = layout.positions[index]!;
      const { commands } = glyph.path;
      for (const { command, args } of commands) {
        parts.push(
          commandText(command, args, scale, x + position.xOffset * scale, -position.yOffset * scale),
        );
      }
      if (commands.length > 0) {
        top = Math.min(top, -glyph.bbox.maxY * scale);
        bottom = Math.max(bottom, -glyph.bbox.minY * scale);
      }
      x += position.xAdvance * scale;
    }
  }
  return { path: parts.join(''), width: x, top, bottom };
}

const letters: Record<string, string> = {
  moveTo: 'M',
  lineTo: 'L',
  quadraticCurveTo: 'Q',
  bezierCurveTo: 'C',
  closePath: 'Z',
};

function commandText(command: string, args: readonly number[], scale: number, x: number, y: number): string {
  const numbers = args.map((value, index) =>
    (index % 2 === 0 ? x + value * scale : y - value * scale).toFixed(4),
  );
  return `${letters[command] ?? ''}${numbers.join(' ')}`;
}

function boxAt(x: number): string {
  const [l, r] = [(x + 0.12).toFixed(4), (x + 0.88).toFixed(4)];
  const [l2, r2] = [(x + 0.2).toFixed(4), (x + 0.8).toFixed(4)];
  return `M${l} 0L${r} 0L${r} -1L${l} -1ZM${l2} -0.08L${l2} -0.92L${r2} -0.92L${r2} -0.08Z`;
}
