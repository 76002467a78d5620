import { useElementSize } from '@mantine/hooks';
import type { ReactNode } from 'react';
import styles from './charts.module.css';
import { apart, roundTicks } from './ticks.js';

export interface Axis {
  readonly min: number;
  readonly max: number;
  /** Said beside the axis, with its unit. */
  readonly label: string;
  text?(value: number): string;
  /** Left out: round ones. */
  readonly ticks?: readonly number[];
}
/** How a line looks; told apart without colour. */
export type Stroke = 'whole' | 'dashed' | 'dotted';

export interface ChartLine {
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly stroke?: Stroke;
  /** CSS colour; default: the text's own. */
  readonly colour?: string;
  /** A mark at every point. */
  readonly dots?: boolean;
  /** Default 2.2. */
  readonly widthPixels?: number;
}
export interface ChartBand {
  readonly points: readonly (readonly [x: number, low: number, high: number])[];
  readonly colour?: string;
}

/** Length of the piece of line before its name, pixels. */
const sample = 26;

const dashes: Record<Stroke, string | undefined> = { whole: undefined, dashed: '7 5', dotted: '1.5 5' };

/** Lines over an axis. `label` is read aloud in place of the picture: say in it what the chart shows. */
export function LineChart(props: {
  readonly label: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly lines: readonly ChartLine[];
  readonly bands?: readonly ChartBand[];
  /** Straight across, with words. */
  readonly levels?: readonly { readonly y: number; readonly words: string }[];
  readonly heightPixels?: number;
  /** The plot on neutral mid-grey, for charts that show colours themselves. */
  readonly surround?: boolean;
  /** Drawn over the rest: `place` turns values into pixels. */
  over?(place: (x: number, y: number) => readonly [number, number]): ReactNode;
}) {
  const { x, y, lines, bands = [], levels = [] } = props;
  const { ref, width: measured } = useElementSize<HTMLDivElement>();
  const width = Math.max(240, measured || 560);
  const height = props.heightPixels ?? 240;
  const named = lines.filter((line) => line.name !== '' && line.points.length > 0);
  const spoken = levels.filter((level) => level.words !== '');
  const longest = Math.max(
    0,
    ...named.map((line) => line.name.length),
    ...spoken.map((level) => level.words.length),
  );
  const inset = { top: 12, right: longest > 0 ? 16 + sample + longest * 7.4 : 14, bottom: 46, left: 46 };
  const across = Math.max(40, width - inset.left - inset.right);
  const down = height - inset.top - inset.bottom;
  const toX = (value: number) => inset.left + ((value - x.min) / (x.max - x.min || 1)) * across;
  const toY = (value: number) => inset.top + (1 - (value - y.min) / (y.max - y.min || 1)) * down;
  const path = (points: readonly (readonly [number, number])[]) =>
    points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${toX(px).toFixed(1)} ${toY(py).toFixed(1)}`).join('');
  const ends = apart(
    [...named.map((line) => toY(line.points.at(-1)?.[1] ?? y.min)), ...spoken.map((level) => toY(level.y))],
    17,
    inset.top + 4,
    inset.top + down,
  );
  const xTicks = roomFor(
    x.ticks ?? roundTicks(x.min, x.max, Math.max(2, Math.floor(across / 80))),
    (tick) => toX(tick),
    (tick) => (x.text ?? plainText)(tick),
  );
  const yTicks = y.ticks ?? roundTicks(y.min, y.max, Math.max(2, Math.floor(down / 36)));
  return (
    <div ref={ref} className={styles.box}>
      <svg className={styles.chart} width={width} height={height} role="img" aria-label={props.label}>
        {props.surround && (
          <rect x={inset.left} y={inset.top} width={across} height={down} className={styles.ground} />
        )}
        {yTicks.map((tick) => (
          <g key={tick}>
            <line
              x1={inset.left}
              x2={inset.left + across}
              y1={toY(tick)}
              y2={toY(tick)}
              className={styles.grid}
            />
            <text x={inset.left - 7} y={toY(tick) + 5} textAnchor="end">
              {(y.text ?? plainText)(tick)}
            </text>
          </g>
        ))}
        {xTicks.map((tick) => (
          <g key={tick}>
            <line
              x1={toX(tick)}
              x2={toX(tick)}
              y1={inset.top + down}
              y2={inset.top + down + 5}
              className={styles.axis}
            />
            <text x={toX(tick)} y={inset.top + down + 20} textAnchor="middle">
              {(x.text ?? plainText)(tick)}
            </text>
          </g>
        ))}
        <line
          x1={inset.left}
          x2={inset.left + across}
          y1={inset.top + down}
          y2={inset.top + down}
          className={styles.axis}
        />
        <text x={inset.left + across / 2} y={height - 6} textAnchor="middle" className={styles.axisName}>
          {x.label}
        </text>
        {bands.map((band) => (
          <path
            key={JSON.stringify(band.points[0] ?? [])}
            d={`${path(band.points.map(([px, , high]) => [px, high]))}${path(
              [...band.points].reverse().map(([px, low]) => [px, low]),
            ).replace('M', 'L')}Z`}
            fill={band.colour ?? 'currentColor'}
            className={styles.band}
          />
        ))}
        {levels.map((level) => (
          <g key={level.words}>
            <line
              x1={inset.left}
              x2={inset.left + across}
              y1={toY(level.y)}
              y2={toY(level.y)}
              className={styles.level}
            />
          </g>
        ))}
        {lines.map((line) => (
          <g key={line.name || JSON.stringify(line.points[0])} color={line.colour ?? 'var(--ink)'}>
            <path
              d={path(line.points)}
              fill="none"
              stroke="currentColor"
              strokeWidth={line.widthPixels ?? 2.2}
              strokeLinecap="round"
              strokeLinejoin="round"
              strokeDasharray={dashes[line.stroke ?? 'whole']}
            />
            {line.dots &&
              line.points.map(([px, py]) => (
                <circle key={`${px} ${py}`} cx={toX(px)} cy={toY(py)} r={4.5} fill="currentColor" />
              ))}
          </g>
        ))}
        {props.over?.((px, py) => [toX(px), toY(py)])}
        {named.map((line, i) => (
          <g key={line.name} color={line.colour ?? 'var(--ink)'}>
            <line
              x1={inset.left + across + 8}
              x2={inset.left + across + 2 + sample}
              y1={ends[i]}
              y2={ends[i]}
              stroke="currentColor"
              strokeWidth={line.widthPixels ?? 2.2}
              strokeLinecap="round"
              strokeDasharray={dashes[line.stroke ?? 'whole']}
            />
            <text x={inset.left + across + 8 + sample} y={(ends[i] ?? 0) + 5} className={styles.lineName}>
              {line.name}
            </text>
          </g>
        ))}
        {spoken.map((level, i) => (
          <text key={level.words} x={inset.left + across + 8} y={(ends[named.length + i] ?? 0) + 5}>
            {level.words}
          </text>
        ))}
      </svg>
      <p className={styles.yName} aria-hidden="true">
        {y.label}
      </p>
    </div>
  );
}

const plainText = (value: number) => String(value).replace('-', '\u2212');

/** Those ticks whose words do not run into the one before. */
function roomFor(
  ticks: readonly number[],
  at: (tick: number) => number,
  words: (tick: number) => string,
): number[] {
  let free = Number.NEGATIVE_INFINITY;
  return ticks.filter((tick) => {
    // A tick without words takes no room.
    const half = words(tick) === '' ? 0 : words(tick).length * 4 + 3;
    if (at(tick) - half < free) return false;
    free = at(tick) + half;
    return true;
  });
}
