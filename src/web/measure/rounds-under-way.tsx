import { Link } from '@tanstack/react-router';
import { dayText } from '../words/index.js';
import styles from './measure.module.css';
import type { RoundState } from './round-state.js';
import { StageLine } from './stage-line.js';
import { kindNames, nextNames } from './words.js';

/** Sheets that are on their way from the printer to a path: what comes next for each. */
export function RoundsUnderWay({ rounds }: { readonly rounds: readonly RoundState[] }) {
  if (rounds.length === 0) return null;
  return (
    <section aria-labelledby="rounds-title" className={styles.section}>
      <h2 id="rounds-title">Under way</h2>
      <ul className={styles.rounds}>
        {rounds.map((round) => (
          <li key={round.sheet.id}>
            <Link to="/measure/sheets/$sheetId" params={{ sheetId: round.sheet.id }} className={styles.round}>
              <span className={styles.roundKind}>
                {kindNames[round.sheet.kind]}, {dayText(round.sheet.createdAt)}
                {round.sheet.demo && ' · demo'}
              </span>
              <span className={styles.roundName}>
                {round.sheet.pathName ?? round.sheet.blankName}
                <span className={styles.roundWith}>
                  {round.sheet.pathName ? ` on ${round.sheet.blankName}` : ''}, {round.sheet.setupName}
                </span>
              </span>
              <StageLine stages={round.stages} />
              {round.next && <span className={styles.roundNext}>Next: {nextNames[round.next]}</span>}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
