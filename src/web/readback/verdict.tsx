import { Link } from '@tanstack/react-router';
import type { ReadBack } from '#contract';
import styles from './read-back.module.css';

const mirroring: Record<ReadBack['mirroring'], string> = {
  right: 'mirrored once, as it should be',
  'not-mirrored': 'not mirrored',
  'mirrored-twice': 'mirrored twice',
  unknown: 'could not be told',
};
const scaleWords: Record<ReadBack['scale'], string> = {
  right: 'true to size',
  wrong: 'not printed at 100 %',
  stretched: 'stretched in one direction',
  unknown: 'could not be told from this picture',
};
const patchNames: Record<string, string> = {
  K: 'black',
  C: 'cyan',
  M: 'magenta',
  Y: 'yellow',
  R: 'red',
  G: 'green',
  B: 'blue',
  'grey-dark': 'dark grey',
  'grey-mid': 'middle grey',
  'grey-light': 'light grey',
  'skin-light': 'light skin',
  'skin-dark': 'dark skin',
};
const css = (rgb: readonly number[]) => `rgb(${rgb.map((v) => Math.round(v)).join(' ')})`;

/** What the picture told: the sentences, the figures, the colours of the route strip. */
export function Verdict({
  reading,
  sentences,
  pictureUrl,
  pictureName,
}: {
  readonly reading: ReadBack;
  /** What is left to say after the head of the page. */
  readonly sentences: readonly string[];
  readonly pictureUrl: string;
  readonly pictureName: string;
}) {
  const { scalePercent: scale } = reading;
  return (
    <section aria-label="What it tells" className={styles.verdict}>
      <div className={styles.picture}>
        <img src={pictureUrl} alt={`As given: ${pictureName}`} />
      </div>
      <div className={styles.told}>
        {sentences.map((sentence) => (
          <p key={sentence} className={styles.sentence}>
            {sentence}
          </p>
        ))}
        <dl className={styles.figures}>
          <dt>Mirroring</dt>
          <dd>{mirroring[reading.mirroring]}</dd>
          <dt>Size</dt>
          <dd>
            {scaleWords[reading.scale]}
            {scale && (
              <span className="figures">
                : {scale.across.toFixed(2)} % across, {scale.along.toFixed(2)} % along (±{' '}
                {scale.uncertainty.toFixed(2)})
              </span>
            )}
          </dd>
          <dt>Sheet</dt>
          <dd>
            {reading.sheetId === null ? (
              'its code could not be read'
            ) : reading.sheetKnown ? (
              <Link to="/sheets/$sheetId" params={{ sheetId: reading.sheetId }}>
                {reading.sheetId}
              </Link>
            ) : reading.isTestSheet ? (
              `${reading.sheetId}, a test sheet of this shop`
            ) : (
              `${reading.sheetId}, not in this shop’s record`
            )}
          </dd>
          <dt>Corner marks found</dt>
          <dd className="figures">{reading.markersFound}</dd>
        </dl>
        {reading.routeStrip.length > 0 && (
          <div>
            <h3>Route strip</h3>
            <p className="soft">
              Above as sent to the printer, below as the picture shows it. Ink on paper looks dull before
              pressing; compare strips of the same route over time.
            </p>
            <ul className={styles.strip}>
              {reading.routeStrip.map((patch) => (
                <li key={patch.name} title={patchNames[patch.name] ?? patch.name}>
                  <i style={{ background: css(patch.printedRgb) }} />
                  <i style={{ background: css(patch.seenRgb) }} />
                  <span className="said-only">
                    {patchNames[patch.name] ?? patch.name}: sent {patch.printedRgb.map(Math.round).join(', ')}
                    ; seen {patch.seenRgb.map(Math.round).join(', ')}
                  </span>
                </li>
              ))}
            </ul>
          </div>
        )}
      </div>
    </section>
  );
}
