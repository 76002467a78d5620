import type { SheetPaper } from './order.js';

/**
 * Papers worth naming, smallest first. ISO 216 for the A series; 13 × 19 in and 610/1118 mm rolls are the usual sizes
 * of larger inkjet printers (common practice).
 */
const papers: readonly {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly roll?: true;
}[] = [
  { name: 'A4 (210 × 297 mm)', widthMm: 210, heightMm: 297 },
  { name: 'A3 (297 × 420 mm)', widthMm: 297, heightMm: 420 },
  { name: '13 × 19 in (330 × 483 mm)', widthMm: 330.2, heightMm: 482.6 },
  { name: 'A2 (420 × 594 mm)', widthMm: 420, heightMm: 594 },
  { name: 'a 610 mm roll', widthMm: 610, heightMm: 5000, roll: true },
  { name: 'a 1118 mm roll', widthMm: 1118, heightMm: 5000, roll: true },
];

/** The smallest of the usual papers for which `holds` is true, by name; null when none does. */
export function paperFor(present: SheetPaper, holds: (paper: SheetPaper) => boolean): string | null {
  const found = papers.find(({ name: _, ...size }) => holds({ ...size, marginMm: present.marginMm }));
  return found?.name ?? null;
}
