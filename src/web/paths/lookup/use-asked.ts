import { useNavigate, useSearch } from '@tanstack/react-router';
import { useCallback, useState } from 'react';
import type { ColourQuestion } from '#contract';
import { formatHex, labFromSrgb, srgb8FromLab, srgbFromLab, type Triple3 } from '#craft/colour';

export type LabWhite = 'relative' | 'absolute';

/** A colour being asked for. Whichever way it was given is what the path is asked; the other is worked out for show. */
export interface Asked {
  readonly by: 'hex' | 'lab';
  readonly hex: string;
  readonly lab: Triple3;
  readonly white: LabWhite;
}

export function bytesOfHex(hex: string): Triple3 {
  const at = (i: number) => Number.parseInt(hex.slice(i, i + 2), 16);
  return [at(1), at(3), at(5)];
}

const rounded = (lab: Triple3): Triple3 => [
  Math.round(lab[0] * 10) / 10,
  Math.round(lab[1] * 10) / 10,
  Math.round(lab[2] * 10) / 10,
];

export function askedByHex(hex: string): Asked {
  const [r, g, b] = bytesOfHex(hex);
  return {
    by: 'hex',
    hex: hex.toLowerCase(),
    lab: rounded(labFromSrgb([r / 255, g / 255, b / 255])),
    white: 'relative',
  };
}

export const askedByLab = (lab: Triple3, white: LabWhite): Asked => ({
  by: 'lab',
  hex: formatHex(srgb8FromLab(lab)),
  lab,
  white,
});

/** Whether a usual screen can show it; a hair of rounding does not count. */
export const shownOnScreen = (lab: Triple3): boolean =>
  srgbFromLab(lab).every((v) => v > -0.002 && v < 1.002);

export const questionOf = (asked: Asked): ColourQuestion['colours'][number] =>
  asked.by === 'hex' ? { hex: asked.hex } : { lab: asked.lab, white: asked.white };

/** The colour asked for; given as hex it stands in the address too. */
export function useAsked() {
  const search = useSearch({ from: '/paths/$pathId/lookup' });
  const navigate = useNavigate({ from: '/paths/$pathId/lookup' });
  // A usual brick red: reached by most, and not by all.
  const [asked, setAsked] = useState(() => askedByHex(`#${search.hex ?? 'b5432e'}`));
  const ask = useCallback(
    (next: Asked) => {
      setAsked(next);
      const hex = next.by === 'hex' ? next.hex.slice(1) : undefined;
      void navigate({ search: hex ? { hex } : {}, replace: true, resetScroll: false });
    },
    [navigate],
  );
  return { asked, ask };
}
