import { useId } from 'react';
import styles from './round.module.css';

/**
 * Labels laid as the swatches lie on the sheet, line by line from left to right; a place further left than the one
 * before begins the next line. One is picked.
 */
export function PickRow(props: {
  readonly question: string;
  readonly name: string;
  /** 0..1, drawn as the ground; null: none. */
  readonly greyLevel: number | null;
  readonly places: readonly { readonly label: string; readonly x: number }[];
  readonly picked: string | null;
  onPick(label: string): void;
}) {
  const { question, name, greyLevel, places, picked, onPick } = props;
  const id = useId();
  return (
    <fieldset className={styles.pickRow}>
      <legend>
        {question}
        <span className={styles.picked}>{picked === null ? 'Nothing picked yet' : `Picked: ${picked}`}</span>
      </legend>
      <div
        className={styles.field}
        style={greyLevel === null ? undefined : { background: levelGrey(greyLevel) }}
      >
        {linesOf(places).map((line) => (
          <div key={line[0]?.label} className={styles.fieldLine}>
            {line.map((place) => (
              <label key={place.label}>
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
        ))}
      </div>
    </fieldset>
  );
}

function linesOf<T extends { readonly x: number }>(places: readonly T[]): T[][] {
  const lines: T[][] = [];
  for (const place of places) {
    const line = lines.at(-1);
    const before = line?.at(-1);
    if (line && before && place.x > before.x) line.push(place);
    else lines.push([place]);
  }
  return lines;
}

/** The field's own grey, only to find one's place on the sheet; truly neutral. */
const levelGrey = (level: number): string => {
  const grey = Math.round(255 * Math.min(1, Math.max(0, level)));
  return `rgb(${grey} ${grey} ${grey})`;
};
