import { type ClipboardEvent, type KeyboardEvent, useRef } from 'react';
import { placeName } from './grid.js';
import type { SideNames } from './sides.js';
import styles from './temperature-grid.module.css';

/**
 * Fields laid out as the platen lies: Enter goes on to the next place, arrow keys up and down to the one behind or
 * before, and a pasted row or column of figures fills the places after it. Texts are kept as typed.
 */
export function TemperatureGrid(props: {
  readonly columns: number;
  readonly rows: number;
  readonly texts: readonly string[];
  onChange(texts: readonly string[]): void;
  readonly unit: 'C' | 'F';
  readonly sides: SideNames;
  /** Depth over width of the face. */
  readonly shape: number;
  /** What is wrong with one field. */
  complaint(at: number): string | undefined;
}) {
  const { columns, rows, texts, onChange, unit } = props;
  const fields = useRef<(HTMLInputElement | null)[]>([]);
  const count = columns * rows;
  const put = (at: number, values: readonly string[]) => {
    const next = Array.from({ length: count }, (_, i) => texts[i] ?? '');
    values.forEach((value, i) => {
      if (at + i < count) next[at + i] = value;
    });
    onChange(next);
  };
  const go = (to: number) => {
    const field = fields.current[to];
    field?.focus();
    field?.select();
    return field !== undefined && field !== null;
  };
  const walk = (at: number) => (event: KeyboardEvent) => {
    const to =
      event.key === 'ArrowUp'
        ? at - columns
        : event.key === 'ArrowDown'
          ? at + columns
          : event.key === 'Enter' && at + 1 < count
            ? at + 1
            : null;
    if (to !== null && to >= 0 && to < count && go(to)) event.preventDefault();
  };
  const paste = (at: number) => (event: ClipboardEvent) => {
    const values = event.clipboardData
      .getData('text')
      .trim()
      .split(/[\s;]+/);
    if (values.length < 2) return;
    event.preventDefault();
    put(at, values);
    go(Math.min(count - 1, at + values.length));
  };
  return (
    <fieldset className={styles.platen} aria-label="Temperatures as one stands before the press">
      <span className={styles.side}>{props.sides.top}</span>
      <div
        className={styles.face}
        style={{
          gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
          aspectRatio: String(1 / Math.min(1.3, Math.max(0.5, props.shape))),
        }}
      >
        {Array.from({ length: count }, (_, at) => {
          const name = placeName(at % columns, Math.floor(at / columns), columns, rows, props.sides.ends);
          const wrong = props.complaint(at);
          return (
            <span key={name} className={styles.place}>
              <input
                ref={(element) => {
                  fields.current[at] = element;
                }}
                inputMode="decimal"
                autoComplete="off"
                aria-label={`${name}, degrees ${unit === 'C' ? 'Celsius' : 'Fahrenheit'}`}
                aria-invalid={wrong !== undefined}
                title={wrong}
                placeholder="–"
                value={texts[at] ?? ''}
                onChange={(event) => put(at, [event.currentTarget.value])}
                onKeyDown={walk(at)}
                onPaste={paste(at)}
              />
            </span>
          );
        })}
      </div>
      <span className={styles.side}>{props.sides.foot}</span>
    </fieldset>
  );
}
