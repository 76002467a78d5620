import { useCallback, useEffect, useRef, useState } from 'react';
import type { Placement } from '#contract';
import type { FlatOutline } from '#craft/blank';
import {
  type ArtworkPlacement,
  asFreePlacement,
  freeWidthAtScaleOneMm,
  type PixelSize,
  placeArtwork,
} from '#craft/sheet';

export const usualPlacement: Placement = {
  mode: 'fill',
  scale: 1,
  offsetXMm: 0,
  offsetYMm: 0,
  rotationDegrees: 0,
};

const settleMs = 300;
const bounded = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));
const turned = (degrees: number) => {
  const once = (((degrees + 180) % 360) + 360) % 360;
  return Number((once - 180).toFixed(2));
};

export interface Placing {
  readonly placement: Placement;
  /** Where the artwork lies now, by the same rules the server uses. */
  readonly placed: ArtworkPlacement;
  setMode(mode: Placement['mode']): void;
  /** Move the artwork's centre to this place, as far as the mode lets it. Returns whether it moved. */
  moveTo(xMm: number, yMm: number): boolean;
  /** A width of the person's own: from then on the size is free. */
  setWidthMm(widthMm: number): void;
  turnTo(degrees: number): void;
  centre(): void;
  /** Filling the face, upright, as a new placing begins. */
  startOver(): void;
  /** The hand has left: what was changed counts now, not after the rest. */
  settle(): void;
}

/**
 * Placing under the hand: changes show at once and reach `onSettled` when the hand rests, so that the server is
 * asked once rather than at every pixel.
 */
export function usePlacing(
  outline: FlatOutline,
  artwork: PixelSize,
  bleedMm: number,
  kept: Placement | undefined,
  onSettled: (placement: Placement) => void,
): Placing {
  const [placement, setPlacement] = useState<Placement>(kept ?? usualPlacement);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const latest = useRef(placement);
  const settled = useRef(onSettled);
  settled.current = onSettled;
  const keptText = JSON.stringify(kept ?? usualPlacement);

  // The address changed by other means (back button, another blank): follow it, unless a hand is at work.
  useEffect(() => {
    if (timer.current !== undefined) return;
    latest.current = JSON.parse(keptText) as Placement;
    setPlacement(latest.current);
  }, [keptText]);
  useEffect(() => () => clearTimeout(timer.current), []);

  const change = useCallback((next: Placement) => {
    latest.current = next;
    setPlacement(next);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      timer.current = undefined;
      settled.current(latest.current);
    }, settleMs);
  }, []);

  const settle = useCallback(() => {
    if (timer.current === undefined) return;
    clearTimeout(timer.current);
    timer.current = undefined;
    settled.current(latest.current);
  }, []);

  const place = (choice: Placement) => placeArtwork(outline, artwork, choice, { bleedMm });
  const free = () => ({ ...asFreePlacement(outline, artwork, place(latest.current)) }) as Placement;

  return {
    placement,
    placed: place(placement),
    setMode(mode) {
      change(mode === 'free' ? free() : { ...latest.current, mode, offsetXMm: 0, offsetYMm: 0 });
    },
    moveTo(xMm, yMm) {
      const before = place(latest.current);
      const after = place({
        ...latest.current,
        offsetXMm: bounded(xMm, -5000, 5000),
        offsetYMm: bounded(yMm, -5000, 5000),
      });
      // Kept as what came of it: no hidden rest that must be dragged back first.
      change({ ...latest.current, offsetXMm: after.centreXMm, offsetYMm: after.centreYMm });
      return Math.hypot(after.centreXMm - before.centreXMm, after.centreYMm - before.centreYMm) > 1e-6;
    },
    setWidthMm(widthMm) {
      if (!(widthMm > 0)) return;
      change({ ...free(), scale: bounded(widthMm / freeWidthAtScaleOneMm(outline, artwork), 0.01, 100) });
    },
    turnTo(degrees) {
      change({ ...latest.current, rotationDegrees: turned(degrees) });
    },
    centre() {
      change({ ...latest.current, offsetXMm: 0, offsetYMm: 0 });
    },
    settle,
    startOver() {
      change(usualPlacement);
    },
  };
}
