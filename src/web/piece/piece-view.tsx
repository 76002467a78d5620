import { useElementSize } from '@mantine/hooks';
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import type { Blank } from '#contract';
import styles from './piece-view.module.css';
import { createPieceScene, type PieceScene } from './scene.js';

const firstLook = (shape: Blank['shape']) =>
  shape.kind === 'cylinder' ? { turn: shape.handle ? -42 : 0, tilt: 14 } : { turn: -14, tilt: 52 };

const wrap = (degrees: number) => ((((degrees + 180) % 360) + 360) % 360) - 180;

/**
 * The piece as pressed, turned by dragging, by the arrow keys or by the buttons beneath. It never moves by itself.
 * `onUnavailable` is called where the browser cannot draw it.
 */
export default function PieceView(props: {
  readonly blank: Pick<Blank, 'shape' | 'material' | 'name'>;
  readonly pictureUrl: string;
  onUnavailable(): void;
}) {
  const { blank, pictureUrl, onUnavailable } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const scene = useRef<PieceScene | null>(null);
  const [look, setLook] = useState(firstLook(blank.shape));
  const { ref: box, width, height } = useElementSize<HTMLDivElement>();
  const drag = useRef<{ x: number; y: number; turn: number; tilt: number } | null>(null);
  const shapeKey = JSON.stringify([blank.shape, blank.material]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the scene is built anew only for another shape
  useEffect(() => {
    if (!canvas.current) return;
    try {
      scene.current = createPieceScene(canvas.current, blank);
    } catch {
      onUnavailable();
      return;
    }
    setLook(firstLook(blank.shape));
    return () => {
      scene.current?.dispose();
      scene.current = null;
    };
  }, [shapeKey]);
  useEffect(() => scene.current?.resize(width, height), [width, height]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new shape needs the picture again
  useEffect(() => {
    // A picture replaced before it loaded is no trouble: the next one is on its way.
    scene.current?.setPicture(pictureUrl).catch(() => undefined);
  }, [pictureUrl, shapeKey]);
  useEffect(() => scene.current?.look(look.turn, look.tilt), [look]);

  const move = (turn: number, tilt: number) =>
    setLook((old) => ({ turn: wrap(old.turn + turn), tilt: Math.max(-8, Math.min(88, old.tilt + tilt)) }));
  const onKeyDown = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 45 : 10;
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, step],
      ArrowDown: [0, -step],
    };
    const asked = moves[event.key];
    if (event.key === 'Home') setLook(firstLook(blank.shape));
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
      turn: wrap(from.turn + (event.clientX - from.x) * 0.5),
      tilt: Math.max(-8, Math.min(88, from.tilt + (event.clientY - from.y) * 0.35)),
    });
  };
  const shown = Math.round(wrap(look.turn));
  return (
    <div className={styles.whole}>
      <div
        ref={box}
        className={styles.box}
        role="slider"
        tabIndex={0}
        aria-label={`${blank.name} as pressed. Arrow keys turn and tilt it.`}
        aria-valuemin={-180}
        aria-valuemax={180}
        aria-valuenow={shown}
        aria-valuetext={
          shown === 0
            ? 'seen from the front'
            : `turned ${Math.abs(shown)}° to the ${shown > 0 ? 'right' : 'left'}`
        }
        onKeyDown={onKeyDown}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={() => {
          drag.current = null;
        }}
        onPointerCancel={() => {
          drag.current = null;
        }}
      >
        <canvas ref={canvas} className={styles.canvas} />
      </div>
      <div className={styles.turns}>
        <button type="button" onClick={() => move(-30, 0)}>
          Turn left
        </button>
        <button type="button" onClick={() => setLook(firstLook(blank.shape))}>
          As at first
        </button>
        <button type="button" onClick={() => move(30, 0)}>
          Turn right
        </button>
      </div>
    </div>
  );
}
