import { useElementSize } from '@mantine/hooks';
import { useEffect, useRef } from 'react';
import { useTurning, wrapDegrees } from '../../frame/index.js';
import styles from './gamut.module.css';
import { createGamutScene, type GamutScene } from './gamut-scene.js';
import type { Surface } from './mesh.js';

/** Red and yellow towards the viewer, seen from a little above. */
const atFirst = { turn: -150, tilt: 16 };
/** The hue towards the viewer: turned by 0 it is 270° (blue), see `placed` in gamut-scene.ts. */
function facing(turn: number): string {
  const names = ['rose', 'red and orange', 'yellow', 'green', 'sea green', 'turquoise', 'blue', 'magenta'];
  const hue = (((270 - turn) % 360) + 360) % 360;
  return names[Math.round(hue / 45) % 8] ?? '';
}

/**
 * The body of reachable colours, turned by dragging, by the arrow keys or by the buttons. It never moves by itself.
 * `onUnavailable` is called where the browser cannot draw it.
 */
export default function GamutView(props: {
  readonly body: Surface;
  readonly screen: Surface;
  readonly compared: boolean;
  onUnavailable(): void;
}) {
  const { body, screen, compared, onUnavailable } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const scene = useRef<GamutScene | null>(null);
  const { look, setLook, move, reset, handlers } = useTurning(atFirst, { least: -30, most: 89 });
  const { ref: box, width, height } = useElementSize<HTMLDivElement>();

  // biome-ignore lint/correctness/useExhaustiveDependencies: built anew only for another path
  useEffect(() => {
    if (!canvas.current) return;
    try {
      scene.current = createGamutScene(canvas.current, body, screen);
    } catch {
      onUnavailable();
      return;
    }
    return () => {
      scene.current?.dispose();
      scene.current = null;
    };
  }, [body, screen]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new body needs its size, side and wire again
  useEffect(() => {
    scene.current?.resize(width, height);
    scene.current?.compare(compared);
    scene.current?.look(look.turn, look.tilt);
  }, [width, height, look, compared, body, screen]);

  return (
    <div className={styles.whole}>
      <div
        ref={box}
        className={styles.box}
        role="slider"
        tabIndex={0}
        aria-label="The colours this path reaches, as a body to turn. Arrow keys turn and tilt it."
        aria-valuemin={-180}
        aria-valuemax={180}
        aria-valuenow={Math.round(wrapDegrees(look.turn))}
        aria-valuetext={`${look.tilt > 75 ? 'seen from above, ' : ''}${facing(look.turn)} side in front`}
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
        <button type="button" onClick={() => setLook((old) => ({ ...old, tilt: 89 }))}>
          From above
        </button>
        <button type="button" onClick={() => move(30, 0)}>
          Turn right
        </button>
      </div>
    </div>
  );
}
