import type { Reading } from '#contract';
import styles from './reading.module.css';

type Evenness = NonNullable<Reading['evenness']>;

/** '6 % less' or 'as much', beside the sheet's mean. */
const beside = (dye: number): string => {
  const percent = Math.round(Math.abs(dye - 1) * 100);
  return percent === 0 ? 'as much' : `${percent}\u00a0% ${dye < 1 ? 'less' : 'more'}`;
};

/** How evenly the dye went over: a map whose darker fields took more, with words for the ends. */
export function EvennessMap({ evenness }: { readonly evenness: Evenness }) {
  if (!evenness.known) {
    return (
      <p>
        The press was even, as far as this sheet can tell: its repeated patches differ no more from place to
        place than by chance.
      </p>
    );
  }
  const { map, least, most } = evenness;
  const span = Math.max(most.dye - 1, 1 - least.dye, 0.02);
  const field = 22;
  const ends = [
    { at: map.dye.indexOf(Math.min(...map.dye)), dye: least.dye },
    { at: map.dye.indexOf(Math.max(...map.dye)), dye: most.dye },
  ];
  // L* about 50 for the mean, as the surround; darker where more dye went.
  const grey = (dye: number) => Math.round(119 - Math.max(-1, Math.min(1, (dye - 1) / span)) * 62);
  return (
    <>
      <p>
        Least dye {least.where}: {beside(least.dye)} than on average; most {most.where}: {beside(most.dye)}.
        It was taken out of the colours; the path does not learn it.
      </p>
      <svg
        viewBox={`0 0 ${map.columns * field} ${map.rows * field}`}
        className={styles.evenness}
        role="img"
        aria-label={`Dye over the sheet: least ${least.where}, ${beside(least.dye)}; most ${most.where}, ${beside(most.dye)}.`}
      >
        {map.dye.map((dye, i) => (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: fields have no name but their place
            key={i}
            x={(i % map.columns) * field}
            y={Math.floor(i / map.columns) * field}
            width={field + 0.5}
            height={field + 0.5}
            fill={`rgb(${grey(dye)} ${grey(dye)} ${grey(dye)})`}
          />
        ))}
        {ends.map(({ at, dye }) => {
          // Kept inside the map, so that the words are not cut off.
          const x = Math.min(map.columns - 1.6, Math.max(1.6, (at % map.columns) + 0.5)) * field;
          const y = Math.min(map.rows - 0.8, Math.max(0.8, Math.floor(at / map.columns) + 0.5)) * field;
          return (
            <g key={dye}>
              <rect x={x - 30} y={y - 13} width={60} height={26} rx={4} fill="#f6f6f6" />
              <text x={x} y={y + 6.5} textAnchor="middle" fontSize={19} fill="#1d1d1d">
                {percentText(dye)}
              </text>
            </g>
          );
        })}
      </svg>
      <p className="soft">Darker fields took more dye. The piece as it reads.</p>
    </>
  );
}

/** '+2 %' */
const percentText = (dye: number): string => {
  const percent = Math.round((dye - 1) * 100);
  return `${percent < 0 ? '\u2212' : '+'}${Math.abs(percent)} %`;
};
