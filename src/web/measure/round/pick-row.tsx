import { useId } from 'react';
import styles from './round.module.css';

/** Labels laid as the swatches lie on the sheet; one is picked. */
export function PickRow(props: {
  readonly question: string;
  readonly name: string;
  /** 0..1, drawn as the ground; null: none. */
  readonly greyLevel: number | null;
  readonly places: readonly { readonly label: string; readonly x: number; readonly y: number }[];
  readonly picked: string | null;
  onPick(label: string): void;
}) {
  const { question, name, greyLevel, places, picked, onPick } = props;
  const id = useId();
  const across = ranks(places.map((place) => place.x));
  const down = ranks(places.map((place) => place.y));
  const oneLine = new Set(down).size === 1;
  return (
    <fieldset className={styles.pickRow}>
      <legend>
        {question} <span className={styles.picked}>{picked === null ? '' : `Picked: ${picked}`}</span>
      </legend>
      <div
        className={styles.field}
        data-line={oneLine || undefined}
        style={greyLevel === null ? undefined : { background: levelGrey(greyLevel) }}
      >
        {places.map((place, i) => (
          <label
            key={place.label}
            style={oneLine ? undefined : { gridColumn: (across[i] ?? 0) + 1, gridRow: (down[i] ?? 0) + 1 }}
          >
            <input
              type="radio"
              name={`${id}-${name}`}
              value={place.label}
              checked={picked === place.label}
              onChange={() => onPick(place.label)}
            />
            <span>{place.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** Place of each value among the distinct ones, from 0. */
function ranks(values: readonly number[]): number[] {
  const distinct = [...new Set(values.map((value) => Math.round(value * 100) / 100))].sort((a, b) => a - b);
  return values.map((value) => distinct.indexOf(Math.round(value * 100) / 100));
}

/** The field's own grey, only to find one's place on the sheet; truly neutral. */
const levelGrey = (level: number): string => {
  const grey = Math.round(255 * Math.min(1, Math.max(0, level)));
  return `rgb(${grey} ${grey} ${grey})`;
};
