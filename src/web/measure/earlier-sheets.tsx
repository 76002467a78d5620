import { Link } from '@tanstack/react-router';
import { dayText } from '../words/index.js';
import styles from './measure.module.css';
import type { RoundState } from './round-state.js';
import { kindNames } from './words.js';

/** Sheets whose round is over: to print again, to read again. */
export function EarlierSheets({ rounds }: { readonly rounds: readonly RoundState[] }) {
  if (rounds.length === 0) return null;
  return (
    <details className={styles.earlier}>
      <summary>
        {rounds.length === 1 ? 'One earlier test sheet' : `${rounds.length} earlier test sheets`}
      </summary>
      <ul>
        {rounds.map(({ sheet, path }) => (
          <li key={sheet.id}>
            <Link to="/measure/sheets/$sheetId" params={{ sheetId: sheet.id }}>
              {kindNames[sheet.kind]} for {path?.name ?? sheet.pathName ?? sheet.blankName}
            </Link>{' '}
            <span className="soft">
              {dayText(sheet.createdAt)} · {sheet.id}
              {sheet.demo && ' · demo'}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
