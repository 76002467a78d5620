import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import type { Corners } from '../api/index.js';
import { useObjectUrl } from '../api/index.js';
import styles from './corner-picker.module.css';

type Size = { readonly width: number; readonly height: number };
const names = ['first', 'second', 'third', 'fourth'] as const;

/** A fifth in from each edge: where the corners lie before anyone has moved them. */
const firstCorners = ({ width, height }: Size): Corners =>
  [
    [0.2, 0.2],
    [0.8, 0.2],
    [0.8, 0.8],
    [0.2, 0.8],
  ].map(([x = 0, y = 0]): [number, number] => [Math.round(x * width), Math.round(y * height)]);

/**
 * Four corners of something lying in a picture, laid by hand, by keys or both; pixels of the upright picture. `what`
 * names it: 'the card'.
 */
export function CornerPicker(props: {
  readonly picture: File;
  readonly what: string;
  readonly corners: Corners | null;
  onChange(corners: Corners): void;
}) {
  const { picture, what, corners, onChange } = props;
  const url = useObjectUrl(picture);
  const [size, setSize] = useState<Size | null>(null);
  const [failed, setFailed] = useState(false);
  const [held, setHeld] = useState<number | null>(null);
  const frame = useRef<SVGSVGElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another picture begins afresh
  useEffect(() => {
    setSize(null);
    setFailed(false);
  }, [picture]);

  const move = (index: number, to: readonly [number, number]) => {
    if (!corners || !size) return;
    const within = (v: number, most: number) => Math.min(most, Math.max(0, Math.round(v)));
    onChange(
      corners.map((corner, i): [number, number] =>
        i === index ? [within(to[0], size.width), within(to[1], size.height)] : corner,
      ),
    );
  };
  const drag = (event: PointerEvent) => {
    if (held === null || !size || !frame.current) return;
    const box = frame.current.getBoundingClientRect();
    move(held, [
      ((event.clientX - box.left) / box.width) * size.width,
      ((event.clientY - box.top) / box.height) * size.height,
    ]);
  };
  const walk = (index: number) => (event: KeyboardEvent) => {
    const corner = corners?.[index];
    if (!corner || !size) return;
    // Plain steps of about a screen pixel, with Shift ten times as far.
    const far = (size.width / 1000) * (event.shiftKey ? 10 : 1);
    const step: Record<string, readonly [number, number]> = {
      ArrowLeft: [-far, 0],
      ArrowRight: [far, 0],
      ArrowUp: [0, -far],
      ArrowDown: [0, far],
    };
    const by = step[event.key];
    if (!by) return;
    event.preventDefault();
    const whole = (v: number) => Math.sign(v) * Math.ceil(Math.abs(v));
    move(index, [corner[0] + whole(by[0]), corner[1] + whole(by[1])]);
    setHeld(null);
  };

  if (failed) {
    return (
      <p role="alert">
        The page cannot show this kind of picture, so no corners can be laid on it. Save it as PNG (nothing is
        lost) or JPEG of the best quality, and give it again.
      </p>
    );
  }
  const radius = size ? Math.max(size.width, size.height) / 55 : 0;
  const heldCorner = held === null ? null : (corners?.[held] ?? null);
  return (
    <div className={styles.picker}>
      <p>
        Lay the four corners on {what}: round its patches, one after the other. Which way it lies does not
        matter. Drag them, or reach them with Tab and move them with the arrow keys.
      </p>
      <div className={styles.ground}>
        {url && (
          <div className={styles.picture}>
            <img
              src={url}
              alt={`As given: ${picture.name}`}
              draggable={false}
              onError={() => setFailed(true)}
              onLoad={(event) => {
                const { naturalWidth: width, naturalHeight: height } = event.currentTarget;
                setSize({ width, height });
                if (!corners) onChange(firstCorners({ width, height }));
              }}
            />
            {size && corners && (
              <svg
                ref={frame}
                viewBox={`0 0 ${size.width} ${size.height}`}
                className={styles.over}
                onPointerMove={drag}
                onPointerUp={() => setHeld(null)}
                onPointerCancel={() => setHeld(null)}
              >
                <title>Corners of {what}</title>
                <polygon
                  points={corners.map((corner) => corner.join(' ')).join(' ')}
                  className={styles.edgeUnder}
                />
                <polygon
                  points={corners.map((corner) => corner.join(' ')).join(' ')}
                  className={styles.edge}
                />
                {corners.map(([x, y], i) => (
                  <g
                    key={names[i]}
                    data-corner={i}
                    className={styles.handle}
                    role="slider"
                    tabIndex={0}
                    aria-label={`The ${names[i]} corner`}
                    aria-valuenow={x}
                    aria-valuemin={0}
                    aria-valuemax={size.width}
                    aria-valuetext={`${Math.round((100 * x) / size.width)} % across, ${Math.round((100 * y) / size.height)} % down`}
                    onKeyDown={walk(i)}
                    onPointerDown={(event) => {
                      event.preventDefault();
                      event.currentTarget.focus();
                      frame.current?.setPointerCapture(event.pointerId);
                      setHeld(i);
                    }}
                  >
                    <circle cx={x} cy={y} r={radius * 1.6} fill="transparent" />
                    <circle cx={x} cy={y} r={radius} className={styles.ringUnder} />
                    <circle cx={x} cy={y} r={radius} className={styles.ring} />
                    <circle cx={x} cy={y} r={radius / 8} className={styles.point} />
                  </g>
                ))}
              </svg>
            )}
          </div>
        )}
        {url && size && heldCorner && <Loupe url={url} size={size} at={heldCorner} />}
      </div>
    </div>
  );
}

/** What lies under the finger, drawn larger beside it. */
function Loupe({
  url,
  size,
  at,
}: {
  readonly url: string;
  readonly size: Size;
  readonly at: readonly [number, number];
}) {
  const part = Math.max(size.width, size.height) / 16;
  return (
    <svg
      viewBox={`${at[0] - part / 2} ${at[1] - part / 2} ${part} ${part}`}
      className={styles.loupe}
      data-side={at[0] > size.width / 2 ? 'left' : 'right'}
      aria-hidden="true"
    >
      <image href={url} width={size.width} height={size.height} />
      <path
        d={`M${at[0] - part} ${at[1]} H${at[0] + part} M${at[0]} ${at[1] - part} V${at[1] + part}`}
        stroke="#fff"
        strokeWidth={part / 60}
      />
      <path
        d={`M${at[0] - part} ${at[1]} H${at[0] + part} M${at[0]} ${at[1] - part} V${at[1] + part}`}
        stroke="#111"
        strokeWidth={part / 160}
      />
    </svg>
  );
}
