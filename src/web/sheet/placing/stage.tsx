import { useElementSize, useMergedRef } from '@mantine/hooks';
import { type KeyboardEvent, type PointerEvent, useId, useRef, useState } from 'react';
import type { FlatOutline } from '#craft/blank';
import { Said, usePreferences } from '../../frame/index.js';
import { lengthText } from '../../words/index.js';
import { Face } from './face.js';
import styles from './stage.module.css';
import type { Placing } from './use-placing.js';
import { type HalfView, halfViewOf } from './view-box.js';

const corners = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;
const snapPixels = 6;

type Grip =
  | {
      readonly kind: 'move';
      readonly fromX: number;
      readonly fromY: number;
      readonly centreX: number;
      readonly centreY: number;
    }
  | { readonly kind: 'size'; readonly fromDistance: number; readonly widthMm: number }
  | { readonly kind: 'turn'; readonly fromAngle: number; readonly rotation: number };

/** The face of the blank laid flat, with the artwork on it, moved by hand or by keys. Pixels here, millimetres out. */
export function Stage(props: {
  readonly outline: FlatOutline;
  readonly bleedMm: number;
  readonly safeMm: number;
  readonly handle: boolean;
  readonly pictureUrl: string;
  readonly placing: Placing;
}) {
  const { outline, bleedMm, placing } = props;
  const { placed } = placing;
  const { lengthUnit } = usePreferences();
  const { ref: sizeRef, width, height } = useElementSize<HTMLDivElement>();
  const own = useRef<HTMLDivElement>(null);
  const ref = useMergedRef(sizeRef, own);
  const grip = useRef<Grip | null>(null);
  const [heldView, setHeldView] = useState<HalfView | null>(null);
  const [said, setSaid] = useState('');
  const helpId = useId();

  // While a hand holds the artwork the bench stays still beneath it.
  const view = heldView ?? halfViewOf(outline, bleedMm, placed);
  const margin = 30;
  const scale = Math.max(
    0.01,
    Math.min((width - margin * 2) / (view.xMm * 2), (height - margin * 2) / (view.yMm * 2)),
  );
  const toX = (mm: number) => width / 2 + mm * scale;
  const toY = (mm: number) => height / 2 + mm * scale;
  const angle = (placed.rotationDegrees * Math.PI) / 180;
  const inside = (value: number, most: number) => Math.min(most - 14, Math.max(14, value));
  const at = (alongMm: number, acrossMm: number, outPixels = 0) => {
    const x = alongMm * Math.cos(angle) - acrossMm * Math.sin(angle);
    const y = alongMm * Math.sin(angle) + acrossMm * Math.cos(angle);
    return {
      x: inside(toX(placed.centreXMm + x) + outPixels * Math.sin(angle), width),
      y: inside(toY(placed.centreYMm + y) - outPixels * Math.cos(angle), height),
    };
  };

  const pointerMm = (event: PointerEvent) => {
    const box = own.current?.getBoundingClientRect();
    return {
      x: (event.clientX - (box?.left ?? 0) - width / 2) / scale,
      y: (event.clientY - (box?.top ?? 0) - height / 2) / scale,
    };
  };
  const fromCentre = (event: PointerEvent) => {
    const p = pointerMm(event);
    return { x: p.x - placed.centreXMm, y: p.y - placed.centreYMm };
  };
  const take = (kind: Grip['kind']) => (event: PointerEvent) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    own.current?.setPointerCapture(event.pointerId);
    const p = pointerMm(event);
    const c = fromCentre(event);
    grip.current =
      kind === 'move'
        ? { kind, fromX: p.x, fromY: p.y, centreX: placed.centreXMm, centreY: placed.centreYMm }
        : kind === 'size'
          ? { kind, fromDistance: Math.max(1e-6, Math.hypot(c.x, c.y)), widthMm: placed.widthMm }
          : { kind, fromAngle: Math.atan2(c.y, c.x), rotation: placed.rotationDegrees };
    setHeldView(view);
  };
  const onPointerMove = (event: PointerEvent) => {
    const g = grip.current;
    if (!g) return;
    if (g.kind === 'move') {
      const p = pointerMm(event);
      const snap = event.altKey ? 0 : snapPixels / scale;
      const x = g.centreX + p.x - g.fromX;
      const y = g.centreY + p.y - g.fromY;
      placing.moveTo(Math.abs(x) < snap ? 0 : x, Math.abs(y) < snap ? 0 : y);
    } else if (g.kind === 'size') {
      const c = fromCentre(event);
      placing.setWidthMm((g.widthMm * Math.hypot(c.x, c.y)) / g.fromDistance);
    } else {
      const c = fromCentre(event);
      const turned = g.rotation + ((Math.atan2(c.y, c.x) - g.fromAngle) * 180) / Math.PI;
      const quarter = Math.round(turned / 90) * 90;
      placing.turnTo(!event.altKey && Math.abs(turned - quarter) < 2 ? quarter : turned);
    }
  };
  const letGo = () => {
    if (grip.current) placing.settle();
    grip.current = null;
    setHeldView(null);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey) return;
    const stepMm = (event.altKey ? 0.1 : event.shiftKey ? 10 : 1) * (lengthUnit === 'in' ? 1.27 : 1);
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [-stepMm, 0],
      ArrowRight: [stepMm, 0],
      ArrowUp: [0, -stepMm],
      ArrowDown: [0, stepMm],
    };
    const asked = moves[event.key];
    const turn = event.shiftKey ? 15 : 1;
    if (asked) {
      const moved = placing.moveTo(placed.centreXMm + asked[0], placed.centreYMm + asked[1]);
      setSaid(
        moved
          ? `${lengthText(placed.centreXMm + asked[0], lengthUnit)} across, ${lengthText(placed.centreYMm + asked[1], lengthUnit)} down from the middle`
          : 'It can go no further this way. Choose Free to move it anywhere.',
      );
    } else if (event.key === '+' || event.key === '=' || event.key === '-' || event.key === '_') {
      const grow = event.key === '+' || event.key === '=';
      const factor = event.shiftKey ? 1.1 : 1.01;
      const widthMm = grow ? placed.widthMm * factor : placed.widthMm / factor;
      placing.setWidthMm(widthMm);
      setSaid(`${lengthText(widthMm, lengthUnit)} wide`);
    } else if (event.key === '[' || event.key === ']' || event.key === '{' || event.key === '}') {
      const to = placed.rotationDegrees + (event.key === ']' || event.key === '}' ? turn : -turn);
      placing.turnTo(to);
      setSaid(`turned ${Math.round(to)} degrees`);
    } else if (event.key === '0' || event.key === 'Home') {
      placing.centre();
      setSaid('in the middle');
    } else return;
    event.preventDefault();
  };

  const turnGrip = at(0, -placed.heightMm / 2, 30);
  return (
    <>
      <div
        ref={ref}
        className={styles.stage}
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it takes keys
        tabIndex={0}
        aria-label="Artwork on the blank"
        aria-describedby={helpId}
        onKeyDown={onKeyDown}
        onPointerMove={onPointerMove}
        onPointerUp={letGo}
        onPointerCancel={letGo}
      >
        {width > 0 && (
          <>
            <svg
              width={width}
              height={height}
              aria-hidden="true"
              focusable="false"
              onPointerDown={take('move')}
              className={styles.drawing}
            >
              <Face {...props} scale={scale} centreX={width / 2} centreY={height / 2} />
            </svg>
            {corners.map(([sx, sy]) => {
              const p = at((sx * placed.widthMm) / 2, (sy * placed.heightMm) / 2);
              return (
                <span
                  key={`${sx}${sy}`}
                  className={styles.grip}
                  data-grip={`size${sx}${sy}`}
                  style={{ left: p.x, top: p.y, cursor: sx * sy > 0 ? 'nwse-resize' : 'nesw-resize' }}
                  onPointerDown={take('size')}
                />
              );
            })}
            <span
              className={styles.turnGrip}
              data-grip="turn"
              style={{ left: turnGrip.x, top: turnGrip.y }}
              onPointerDown={take('turn')}
            />
          </>
        )}
      </div>
      <p id={helpId} className={styles.help}>
        Drag it, or with the keyboard: arrows move by {lengthUnit === 'mm' ? '1 mm' : '0.05 in'}, with Shift
        ten times that, with Alt a tenth; + and − size; [ and ] turn; 0 puts it in the middle.
      </p>
      <Said text={said} />
    </>
  );
}
