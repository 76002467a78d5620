import type { LinearRgb } from '#craft/patchreading';
import { Problem } from '#craft/problem';

/** Between the largest and the smallest of R, G, B: beyond this a patch is asked to be a strong colour, 0..255. */
const strongDevice = 120;
/** Channels apart by less than this share of their sum are grey to any reader; strong dyes pass 0.1 by far. */
const greyShare = 0.02;
/** So few strong colours tell nothing: a grey sheet has none. */
const fewestStrong = 6;

interface Seen {
  readonly deviceRgb: readonly number[];
  readonly sound: boolean;
  /** Linear light, 0..1. */
  readonly seenRgb: LinearRgb;
}

const spread = (v: readonly number[]): number => Math.max(...v) - Math.min(...v);

/**
 * A scanner left at grey may still write three channels, all alike: its colours would be taken for the print's.
 * Errors: scan.unclear.
 */
export function assertInColour(patches: readonly Seen[]): void {
  const strong = patches.filter(({ sound, deviceRgb }) => sound && spread(deviceRgb) >= strongDevice);
  if (strong.length < fewestStrong) return;
  const isGrey = ({ seenRgb }: Seen): boolean => {
    const light = [...seenRgb];
    return spread(light) <= greyShare * Math.max(1e-6, light[0]! + light[1]! + light[2]!);
  };
  if (!strong.every(isGrey)) return;
  throw new Problem('scan.unclear', 'Every patch in the picture is grey, also those of strong colours.', {
    remedy:
      'Set the scanner to colour (24 or 48 bit) and scan again. If the print itself is grey, set its driver to colour.',
  });
}
