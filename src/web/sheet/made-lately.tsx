import { Link } from '@tanstack/react-router';
import { useSheets } from '../api/index.js';
import { usePreferences } from '../frame/index.js';
import { dayText, sizeText } from '../words/index.js';
import styles from './made-lately.module.css';

/** The last sheets, to print again or to look up. */
export function MadeLately() {
  const sheets = useSheets();
  const { lengthUnit } = usePreferences();
  const latest = [...(sheets.data ?? [])].sort((a, b) => b.createdAt.localeCompare(a.createdAt)).slice(0, 6);
  if (latest.length === 0) return null;
  return (
    <section aria-labelledby="lately-title" className={styles.section}>
      <h2 id="lately-title">Made lately</h2>
      <ul className={styles.list}>
        {latest.map((sheet) => (
          <li key={sheet.id}>
            <Link to="/sheets/$sheetId" params={{ sheetId: sheet.id }} className={styles.one}>
              <span className={styles.what}>
                {sheet.artworkName} on {sheet.blankName}
              </span>
              <span className="soft">
                {sheet.id} · {sizeText(sheet.widthMm, sheet.heightMm, lengthUnit)} ·{' '}
                {dayText(sheet.createdAt)}
                {sheet.demo && <em> · demo</em>}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
