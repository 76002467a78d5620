import type { ArtworkColours } from '#contract';
import { deltaE00, formatHex, srgb8FromLab, type Triple } from '#craft/colour';
import type { CrowdColour } from './artwork-crowd.js';

/** A colour of the artwork, what the path's tables make of it, and the path's own doubt there. */
export interface CarriedColour {
  readonly crowd: CrowdColour;
  /** Beside the printed white, black moved onto the printed black. */
  readonly wantedLab: Triple;
  readonly comesOutLab: Triple;
  /** Null: not known. */
  readonly doubtDeltaE00: number | null;
}

/** A difference that is plain side by side; the same bound as for a sheet's unreachable colours. */
export const thresholdDeltaE00 = 3;
const mostColours = 12;

/** The colours that change, weighed by how much and how much of the picture they are. */
export function artworkColoursOf(carried: readonly CarriedColour[]): ArtworkColours {
  const rows = carried.map(({ crowd, wantedLab, comesOutLab, doubtDeltaE00 }) => {
    const miss = deltaE00(wantedLab, comesOutLab);
    const why =
      miss > thresholdDeltaE00
        ? ('not-reached' as const)
        : Math.hypot(miss, doubtDeltaE00 ?? 0) > thresholdDeltaE00
          ? ('doubt' as const)
          : ('fine' as const);
    return {
      wantedHex: formatHex(crowd.srgb.map((v) => 255 * v) as unknown as Triple),
      comesOutHex: formatHex(srgb8FromLab(comesOutLab)),
      deltaE00: miss,
      share: crowd.share,
      why,
      weight: Math.hypot(miss, doubtDeltaE00 ?? 0) * Math.sqrt(crowd.share),
    };
  });
  const share = (why: string): number =>
    rows.filter((row) => row.why === why).reduce((sum, row) => sum + row.share, 0);
  const changedShare = share('not-reached');
  const colours = rows
    .toSorted((a, b) => b.weight - a.weight)
    .slice(0, mostColours)
    .map(({ weight: _, ...row }) => row);
  return {
    changedShare,
    thresholdDeltaE00,
    colours,
    sentences: [
      changedShare < 0.005
        ? 'All colours of this artwork print as they look, as far as the path knows.'
        : `${percent(changedShare)} of the picture comes out more than ${thresholdDeltaE00} ΔE00 from what it looks like: this printer, ink and blank do not reach it.`,
      ...(share('doubt') > 0.005
        ? [
            `Of another ${percent(share('doubt'))} the path is not sure: a follow-up sheet towards this artwork would tell.`,
          ]
        : []),
    ],
  };
}

const percent = (share: number): string => {
  const value = 100 * share;
  return value < 1 ? 'Less than 1 %' : `${value < 10 ? value.toFixed(1) : value.toFixed(0)} %`;
};
