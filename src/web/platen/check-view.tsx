import type { PlatenCheck, Press } from '#contract';
import { Told, usePreferences } from '../frame/index.js';
import { dayText, methodNames, sizeK, temperatureText, toDegrees } from '../words/index.js';
import { FindingList } from './finding-marks.js';
import { spanOf } from './grid.js';
import { PlatenMap } from './platen-map.js';
import styles from './platen-page.module.css';
import { sideNames } from './sides.js';

/** What one check of a platen tells: the map of true temperatures, then words. */
export function CheckView({ press, check }: { readonly press: Press; readonly check: PlatenCheck }) {
  const { temperatureUnit: unit } = usePreferences();
  const { map, findings } = check;
  // What was found stands below with its letter.
  const more = check.sentences.slice(1).filter((one) => findings.every((found) => found.words !== one));
  const degrees = (celsius: number) => String(Math.round(toDegrees(celsius, unit)));
  // Less than 6 °C from end to end is hardly more than an instrument's own doubt: it is not drawn as a great matter.
  const span = spanOf(map.celsius, 6, false);
  return (
    <div className={styles.view}>
      <div className={styles.drawn}>
        <PlatenMap
          grid={{ columns: map.columns, rows: map.rows, values: map.celsius }}
          span={span}
          scale="warmth"
          smooth
          figures={{ columns: Math.max(3, check.columns), rows: Math.max(3, check.rows) }}
          figureText={degrees}
          sides={sideNames(press.kind)}
          widthMm={press.platenWidthMm}
          depthMm={press.platenDepthMm}
          findings={findings}
          legend={{ title: `True temperature, °${unit}`, low: 'cooler', high: 'hotter' }}
          label={`The platen of ${press.name} from above, true temperatures: from ${temperatureText(Math.min(...map.celsius), unit)} to ${temperatureText(Math.max(...map.celsius), unit)}. ${findings.map((one) => one.words).join(' ')}`}
        />
        <dl className={styles.facts}>
          <div>
            <dt>True less set</dt>
            <dd>
              {signedK(check.offsetK.value, unit)} ({signedK(check.offsetK.low, unit)} to{' '}
              {signedK(check.offsetK.high, unit)} in nine of ten cases)
            </dd>
          </div>
          <div>
            <dt>Hottest less coolest</dt>
            <dd>{sizeK(check.spreadK, unit)}</dd>
          </div>
          <div>
            <dt>Measured</dt>
            <dd>
              {dayText(check.createdAt)}, set to {temperatureText(check.setC, unit)}, with{' '}
              {check.method === 'infra-red' ? 'an' : check.method === 'probe' ? 'a' : ''}{' '}
              {methodNames[check.method]}
              {check.method === 'infra-red' && check.emissivitySet !== undefined
                ? ` at emissivity ${check.emissivitySet}`
                : ''}
              , {check.celsius.filter((value) => value !== null).length} places
            </dd>
          </div>
          {check.note && (
            <div>
              <dt>Note</dt>
              <dd>{check.note}</dd>
            </div>
          )}
        </dl>
      </div>
      <div className={styles.told}>
        {more.map((sentence) => (
          <p key={sentence}>
            <Told text={sentence} />
          </p>
        ))}
        <FindingList findings={findings} />
      </div>
    </div>
  );
}

const signedK = (kelvin: number, unit: 'C' | 'F'): string => {
  const text = sizeK(kelvin, unit);
  return /^0\b/.test(text) ? text : `${kelvin < 0 ? '\u2212' : '+'}${text}`;
};
