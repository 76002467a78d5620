import { celsiusToFahrenheit } from '#craft/units';
import type { TicketRequest } from '../types.js';

/** A temperature as it stands on a press of either kind. */
export function temperature(platenC: number): { readonly celsius: string; readonly fahrenheit: string } {
  return {
    celsius: `${Math.round(platenC)} °C`,
    fahrenheit: `${Math.round(celsiusToFahrenheit(platenC))} °F`,
  };
}

/** 210 → '3 min 30 s'. */
export function duration(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  const rest = seconds % 60;
  if (minutes === 0) return `${rest} s`;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
}

export function size(widthMm: number, heightMm: number): string {
  const mm = (value: number) => String(Math.round(value * 10) / 10);
  return `${mm(widthMm)} × ${mm(heightMm)} mm`;
}

/** What to do at the printer. Who mirrors is said first: it is the costliest thing to get wrong. */
export function printSteps({ setup, sheetWidthMm, sheetHeightMm }: TicketRequest): string[] {
  return [
    setup.mirroredBy === 'sheet'
      ? 'Mirror in the driver: OFF. The sheet is mirrored already.'
      : 'Mirror in the driver: ON. The sheet is not mirrored.',
    'Size: 100 %, actual size. No fitting to the page.',
    `Sheet ${size(sheetWidthMm, sheetHeightMm)}, ${setup.ppi} pixels per inch.`,
    `Paper: ${setup.paper}. Print on ${setup.printSide}.`,
    ...setup.driverSettings,
  ];
}

/** The first thing at the press: a wrong sheet spends a blank. */
export function lookStep({ blank }: TicketRequest): string {
  return blank.seenThrough
    ? 'Look first: on the paper the picture must read the right way, because it is looked at through the piece; the marks round it, if any, backwards.'
    : 'Look first: on the paper everything must read backwards.';
}

/** Usual cautions of the trade; what the makers of press, blank and ink say comes first. */
export function cautions(material: string): string[] {
  const always = [
    'The maker’s instructions for press, blank, ink and paper come before anything on this page.',
    'Platen and pieces burn at once and stay hot for minutes: heat gloves, and a place to cool.',
    'Air the room; step back when the press opens. Do not breathe the vapour.',
    'No alcohol or other solvent near a hot press: its vapour can catch fire.',
  ];
  if (material === 'glass' || material === 'ceramic' || material === 'slate') {
    return [
      ...always,
      'Let it cool slowly on a dry board: cold water or a cold surface can crack it, and pieces fly.',
    ];
  }
  if (material === 'metal')
    return [...always, 'Metal gives its heat away in a moment: never touch it bare-handed.'];
  return always;
}
