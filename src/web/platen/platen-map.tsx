import { useElementSize } from '@mantine/hooks';
import { useId } from 'react';
import type { Unevenness } from '#contract';
import { FindingMarks, markLetters } from './finding-marks.js';
import { coarser, type PlatenGrid } from './grid.js';
import { gradient, type HueScale, inkOn, shade, shadeRgb } from './one-hue.js';
import styles from './platen-map.module.css';
import { Shades } from './shades.js';
import type { SideNames } from './sides.js';

const edge = 26;

/** The platen from above, as one stands before the press, with a shade and figures for what was found on it. */
export function PlatenMap(props: {
  readonly grid: PlatenGrid;
  readonly span: readonly [number, number];
  readonly scale: HueScale;
  /** At how many places a figure stands. */
  readonly figures: { readonly columns: number; readonly rows: number };
  figureText(value: number): string;
  /** What its top and foot are called. */
  readonly sides: SideNames;
  readonly widthMm: number;
  readonly depthMm: number;
  readonly findings: readonly Unevenness[];
  /** Drawn without steps from cell to cell: for maps worked out, not read. */
  readonly smooth?: boolean;
  /** Where it is best; marked with a ring. */
  readonly best?: { readonly across: number; readonly along: number };
  /** Said beside the scale: what it is of, its low and its high end. */
  readonly legend: { readonly title: string; readonly low: string; readonly high: string };
  /** Read aloud in place of the picture. */
  readonly label: string;
}) {
  const { grid, span, scale, figures, figureText, findings, legend, sides } = props;
  const { ref, width: measured } = useElementSize<HTMLDivElement>();
  const id = useId();
  const width = Math.max(240, measured || 520);
  const shape = Math.min(1.5, Math.max(0.45, props.depthMm / props.widthMm));
  // A deep, narrow face is drawn narrower rather than taller than a screen.
  const faceWidth = Math.min(width - 2 * edge, 560 / shape);
  const faceHeight = faceWidth * shape;
  const left = (width - faceWidth) / 2;
  const height = faceHeight + 2 * edge + 8;
  const share = (value: number) => (value - span[0]) / (span[1] - span[0] || 1);
  const toX = (across: number) => left + across * faceWidth;
  const toY = (along: number) => edge + along * faceHeight;
  const cell = { width: faceWidth / grid.columns, height: faceHeight / grid.rows };
  const room = {
    columns: Math.min(figures.columns, Math.floor(faceWidth / 46)),
    rows: Math.min(figures.rows, Math.floor(faceHeight / 34)),
  };
  const ticks = [span[0], (span[0] + span[1]) / 2, span[1]];
  return (
    <figure className={styles.figure}>
      <div ref={ref} className={styles.picture}>
        <Shades
          grid={grid}
          colour={(value) => shadeRgb(scale, share(value))}
          smooth={props.smooth ?? false}
          style={{ left, top: edge, width: faceWidth, height: faceHeight }}
        />
        <svg width={width} height={height} role="img" aria-label={props.label} className={styles.map}>
          <defs>
            <pattern
              id={`${id}-unread`}
              width={7}
              height={7}
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <rect width={7} height={7} fill="#d9d6d0" />
              <path d="M0 0V7" stroke="#6d675d" strokeWidth={2} />
            </pattern>
            <clipPath id={`${id}-face`}>
              <rect x={left} y={edge} width={faceWidth} height={faceHeight} rx={9} />
            </clipPath>
          </defs>
          <text x={toX(0.5)} y={16} textAnchor="middle" className={styles.side}>
            {sides.top}
          </text>
          <g clipPath={`url(#${id}-face)`}>
            {grid.values.map(
              (value, i) =>
                value === null && (
                  <rect
                    // biome-ignore lint/suspicious/noArrayIndexKey: cells have no name but their place
                    key={i}
                    x={left + (i % grid.columns) * cell.width}
                    y={edge + Math.floor(i / grid.columns) * cell.height}
                    width={cell.width + 0.6}
                    height={cell.height + 0.6}
                    fill={`url(#${id}-unread)`}
                  />
                ),
            )}
          </g>
          <rect x={left} y={edge} width={faceWidth} height={faceHeight} rx={9} className={styles.rim} />
          {props.best && (
            <g className={styles.best}>
              <circle
                cx={Math.min(left + faceWidth - 22, Math.max(left + 22, toX(props.best.across)))}
                cy={Math.min(edge + faceHeight - 22, Math.max(edge + 22, toY(props.best.along)))}
                r={19}
              />
            </g>
          )}
          <FindingMarks findings={findings} toX={toX} toY={toY} figures={room} />
          {coarser(grid, room.columns, room.rows).map(
            ({ across, along, value }) =>
              value !== null && (
                <text
                  key={`${across} ${along}`}
                  x={toX(across)}
                  y={toY(along) + 6}
                  textAnchor="middle"
                  fill={inkOn(scale, share(value))}
                  stroke={shade(scale, share(value))}
                  className={styles.value}
                >
                  {figureText(value)}
                </text>
              ),
          )}
          <text x={toX(0.5)} y={edge + faceHeight + 22} textAnchor="middle" className={styles.side}>
            {sides.foot}
          </text>
        </svg>
      </div>
      <figcaption className={styles.legend}>
        <span>{legend.title}</span>
        <span className={styles.bar} style={{ background: gradient(scale) }} aria-hidden="true" />
        <span className={styles.ticks} aria-hidden="true">
          {ticks.map((tick, i) => (
            <span key={tick}>
              {figureText(tick)}
              {i === 0 ? ` ${legend.low}` : i === 2 ? ` ${legend.high}` : ''}
            </span>
          ))}
        </span>
        {(props.best || markLetters(findings).some(Boolean) || grid.values.includes(null)) && (
          <span className="soft">
            {[
              ...(markLetters(findings).some(Boolean) ? ['Letters stand for what was found.'] : []),
              ...(props.best ? ['Dashed ring: the best region, to which all else is held.'] : []),
              ...(grid.values.includes(null) ? ['Hatched: nothing could be read.'] : []),
            ].join(' ')}
          </span>
        )}
      </figcaption>
    </figure>
  );
}
