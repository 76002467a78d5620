import type { Check } from '#contract';
import styles from './check-list.module.css';

const levels = {
  stop: { word: 'Put right', order: 0 },
  look: { word: 'Look at', order: 1 },
  note: { word: 'Note', order: 2 },
} as const;

/** Each thing that was looked at and found worth saying: what it is, and what to do. */
export function CheckList({ checks }: { readonly checks: readonly Check[] }) {
  const sorted = [...checks].sort((a, b) => levels[a.level].order - levels[b.level].order);
  return (
    <section aria-labelledby="checks-title" className={styles.section}>
      <h2 id="checks-title">Before you print</h2>
      {sorted.length === 0 && <p>Nothing to look at.</p>}
      <ul className={styles.list}>
        {sorted.map((check) => (
          <li key={check.code + check.detail} data-level={check.level} data-check={check.code}>
            <Sign level={check.level} />
            <div>
              <span className={styles.level}>{levels[check.level].word}</span>
              <h3>{check.title}</h3>
              <p>{check.detail}</p>
              {check.remedy && (
                <p className={styles.remedy}>
                  <b>What to do:</b> {check.remedy}
                </p>
              )}
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A filled square, an open ring, a short stroke: told apart without colour, and the word stands beside it. */
function Sign({ level }: { readonly level: Check['level'] }) {
  return (
    <svg viewBox="0 0 20 20" width={20} height={20} className={styles.sign} aria-hidden="true">
      {level === 'stop' && <rect x={2} y={2} width={16} height={16} rx={2} fill="currentColor" />}
      {level === 'look' && <circle cx={10} cy={10} r={7} fill="none" stroke="currentColor" strokeWidth={3} />}
      {level === 'note' && <path d="M3 10h14" stroke="currentColor" strokeWidth={3} strokeLinecap="round" />}
    </svg>
  );
}
