import { type CSSProperties, useEffect, useRef } from 'react';
import type { PlatenGrid } from './grid.js';
import styles from './platen-map.module.css';

/** The shades of a map, one pixel a cell, drawn large by the browser. Decoration under a labelled picture. */
export function Shades(props: {
  readonly grid: PlatenGrid;
  colour(value: number): readonly [number, number, number];
  readonly smooth: boolean;
  readonly style: CSSProperties;
}) {
  const { grid, colour } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    const image = context.createImageData(grid.columns, grid.rows);
    grid.values.forEach((value, i) => {
      image.data.set(value === null ? [217, 214, 208, 255] : [...colour(value), 255], 4 * i);
    });
    context.putImageData(image, 0, 0);
  });
  return (
    <canvas
      ref={canvas}
      width={grid.columns}
      height={grid.rows}
      className={styles.shades}
      data-smooth={props.smooth || undefined}
      style={props.style}
    />
  );
}
