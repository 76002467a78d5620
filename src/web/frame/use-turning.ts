import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';

/** How a body is looked at, degrees: turned about its upright axis, and seen from so far above. */
export interface Look {
  readonly turn: number;
  readonly tilt: number;
}

/** Into −180..180. */
export const wrapDegrees = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180;

/** A body turned by dragging, by the arrow keys (Shift for more) and Home; it never moves by itself. */
export function useTurning(atFirst: Look, tilts: { readonly least: number; readonly most: number }) {
  const [look, setLook] = useState(atFirst);
  const drag = useRef<(Look & { x: number; y: number }) | null>(null);
  const held = (tilt: number): number => Math.max(tilts.least, Math.min(tilts.most, tilt));
  const move = (turn: number, tilt: number) =>
    setLook((old) => ({ turn: wrapDegrees(old.turn + turn), tilt: held(old.tilt + tilt) }));
  const letGo = () => {
    drag.current = null;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 45 : 10;
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, step],
      ArrowDown: [0, -step],
    };
    const asked = moves[event.key];
    if (event.key === 'Home') setLook(atFirst);
    else if (asked) move(...asked);
    else return;
    event.preventDefault();
  };
  const onPointerDown = (event: PointerEvent) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, ...look };
  };
  const onPointerMove = (event: PointerEvent) => {
    const from = drag.current;
    if (!from) return;
    setLook({
      turn: wrapDegrees(from.turn + (event.clientX - from.x) * 0.5),
      tilt: held(from.tilt + (event.clientY - from.y) * 0.35),
    });
  };
  return {
    look,
    setLook,
    move,
    reset: () => setLook(atFirst),
    /** For the element that is dragged and has the focus. */
    handlers: { onKeyDown, onPointerDown, onPointerMove, onPointerUp: letGo, onPointerCancel: letGo },
  };
}
