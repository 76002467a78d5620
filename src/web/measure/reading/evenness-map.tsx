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
  return (
    <>
      <p>
        Less dye went over {least.where} ({beside(least.dye)} than on average), most {most.where} (
        {beside(most.dye)}). It was taken out of the colours; the path does not learn it. For the press:{' '}
        {Math.max(most.dye - 1, 1 - least.dye) > 0.05
          ? 'look at its pressure there, at the pad and at the heat of the platen’s corners.'
          : 'nothing to do.'}
      </p>
      <svg
        viewBox={`0 0 ${map.columns * field} ${map.rows * field}`}
        className={styles.evenness}
        role="img"
        aria-label={`Dye over the sheet: least ${least.where}, ${beside(least.dye)}; most ${most.where}, ${beside(most.dye)}.`}
      >
        {map.dye.map((dye, i) => {
          const x = (i % map.columns) * field;
          const y = Math.floor(i / map.columns) * field;
          // L* about 50 for the mean, as the surround; darker where more dye went.
          const grey = Math.round(119 - ((dye - 1) / span) * 80);
          const percent = Math.round((dye - 1) * 100);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: fields have no name but their place
            <g key={i}>
              <rect x={x} y={y} width={field} height={field} fill={`rgb(${grey} ${grey} ${grey})`} />
              {map.columns <= 12 && (
                <text
                  x={x + field / 2}
                  y={y + field / 2 + 2.6}
                  textAnchor="middle"
                  fontSize={7}
                  fill={grey > 125 ? '#000' : '#fff'}
                >
                  {percent > 0 ? `+${percent}` : percent < 0 ? `\u2212${-percent}` : '0'}
                </text>
              )}
            </g>
          );
        })}
      </svg>
      <p className="soft">
        Percent of dye beside the sheet’s mean; darker fields took more. As the piece reads.
      </p>
    </>
  );
}
