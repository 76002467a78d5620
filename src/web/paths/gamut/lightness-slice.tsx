import { Slider } from '@mantine/core';
import { useEffect, useId, useMemo, useRef } from 'react';
import { labFromXyz, srgb8FromLab, type Triple, xyzFromLab } from '#craft/colour';
import styles from './gamut.module.css';
import { type Cut, cutAtLightness, type Surface, within } from './mesh.js';

/** CIELAB units from the middle to the edge of the picture, and a pixel's size in them. */
const reach = 110;
const pixels = 440;

const lineOf = (cuts: readonly Cut[]) =>
  cuts
    .map(
      ([, a1, b1, , a2, b2]) => `M${a1.toFixed(2)} ${(-b1).toFixed(2)}L${a2.toFixed(2)} ${(-b2).toFixed(2)}`,
    )
    .join('');

/** All colours of one lightness, laid flat: the same without turning, and without WebGL. */
export function LightnessSlice(props: {
  readonly body: Surface;
  readonly screen: Surface;
  readonly compared: boolean;
  readonly whiteLab: Triple;
  readonly lightness: number;
  onLightness(lightness: number): void;
}) {
  const { body, screen, compared, whiteLab, lightness } = props;
  const id = useId();
  const cuts = useMemo(() => cutAtLightness(body, lightness), [body, lightness]);
  const screenCuts = useMemo(() => cutAtLightness(screen, lightness), [screen, lightness]);
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    const picture = context.createImageData(pixels, pixels);
    const white = xyzFromLab(whiteLab);
    for (let y = 0; y < pixels; y += 1) {
      const b = reach - ((y + 0.5) / pixels) * 2 * reach;
      for (const [from, to] of within(cuts, b)) {
        const first = Math.max(0, Math.ceil(((from + reach) / (2 * reach)) * pixels - 0.5));
        const last = Math.min(pixels - 1, Math.floor(((to + reach) / (2 * reach)) * pixels - 0.5));
        for (let x = first; x <= last; x += 1) {
          const a = ((x + 0.5) / pixels) * 2 * reach - reach;
          // On the screen the path's own white stands for white.
          const rgb = srgb8FromLab(labFromXyz(xyzFromLab([lightness, a, b]), white));
          picture.data.set([rgb[0], rgb[1], rgb[2], 255], 4 * (y * pixels + x));
        }
      }
    }
    context.putImageData(picture, 0, 0);
  }, [cuts, lightness, whiteLab]);
  return (
    <div className={styles.section}>
      <div className={styles.stage} data-flat>
        <div className={styles.slice}>
          <canvas
            ref={canvas}
            width={pixels}
            height={pixels}
            role="img"
            aria-label={
              cuts.length > 0
                ? `The colours of lightness ${lightness} that this path reaches`
                : `This path reaches no colour of lightness ${lightness}`
            }
          />
          <svg viewBox={`${-reach} ${-reach} ${2 * reach} ${2 * reach}`} aria-hidden="true">
            <path
              d={`M${-reach + 8} 0H${reach - 8}M0 ${-reach + 8}V${reach - 8}`}
              stroke="#1c1c1c"
              strokeWidth={0.4}
              opacity={0.5}
            />
            <path d={lineOf(cuts)} stroke="#1c1c1c" strokeWidth={1} strokeLinecap="round" />
            {compared && (
              <path
                d={lineOf(screenCuts)}
                stroke="#fff"
                strokeWidth={1}
                strokeDasharray="0.1 2.4"
                strokeLinecap="round"
              />
            )}
            <text x={reach - 4} y={-3} textAnchor="end">
              red
            </text>
            <text x={-reach + 4} y={-3}>
              green
            </text>
            <text x={3} y={-reach + 9}>
              yellow
            </text>
            <text x={3} y={reach - 4}>
              blue
            </text>
          </svg>
        </div>
      </div>
      <div className={styles.slider}>
        <p id={id}>Lightness of the slice</p>
        <Slider
          aria-labelledby={id}
          thumbLabel="Lightness of the slice"
          min={5}
          max={95}
          step={5}
          value={lightness}
          onChange={props.onLightness}
          marks={[
            { value: 5, label: 'dark' },
            { value: 50, label: '50' },
            { value: 95, label: 'light' },
          ]}
          size="md"
          thumbSize={22}
        />
      </div>
    </div>
  );
}
