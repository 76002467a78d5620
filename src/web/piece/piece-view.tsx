import { useElementSize } from '@mantine/hooks';
import { useEffect, useRef } from 'react';
import type { Blank } from '#contract';
import { useTurning, wrapDegrees } from '../frame/index.js';
import styles from './piece-view.module.css';
import { createPieceScene, type PieceScene } from './scene.js';

const firstLook = (shape: Blank['shape']) =>
  shape.kind === 'cylinder' ? { turn: shape.handle ? -42 : 0, tilt: 14 } : { turn: -14, tilt: 52 };

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
  const { look, move, reset, handlers } = useTurning(firstLook(blank.shape), { least: -8, most: 88 });
  const { ref: box, width, height } = useElementSize<HTMLDivElement>();
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
    reset();
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

  const shown = Math.round(wrapDegrees(look.turn));
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
        {...handlers}
      >
        <canvas ref={canvas} className={styles.canvas} />
      </div>
      <div className={styles.turns}>
        <button type="button" onClick={() => move(-30, 0)}>
          Turn left
        </button>
        <button type="button" onClick={reset}>
          As at first
        </button>
        <button type="button" onClick={() => move(30, 0)}>
          Turn right
        </button>
      </div>
    </div>
  );
}
