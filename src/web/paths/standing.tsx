import { Link } from '@tanstack/react-router';
import type { ColourPath, PathStanding } from '#contract';
import { usePathStanding } from '../api/index.js';
import { ProblemNote } from '../frame/index.js';
import { dayText, deltaText } from '../words/index.js';
import styles from './standing.module.css';

const signs: Record<PathStanding['standing'], { readonly sign: string; readonly says: string }> = {
  fits: { sign: '✓', says: 'It fits how you print and press now.' },
  look: { sign: '!', says: 'Look before you rely on it.' },
  stale: { sign: '×', says: 'It no longer fits: measure again or adapt it.' },
  unknown: { sign: '?', says: 'Whether it fits cannot be told.' },
};
const whatNames: Record<PathStanding['reasons'][number]['what'], string> = {
  printer: 'Printer',
  ink: 'Ink',
  paper: 'Paper',
  driver: 'Driver settings',
  mirroring: 'Mirroring',
  blank: 'Blank',
  recipe: 'Recipe',
  'route-strip': 'Route strip',
  check: 'Check',
  age: 'Age',
};

/** Whether the path still belongs to the way things are printed and pressed, and what changed. */
export function Standing({ path }: { readonly path: ColourPath }) {
  const query = usePathStanding(path.id);
  if (query.error) return <ProblemNote error={query.error} onAgain={() => void query.refetch()} />;
  if (!query.data) return <p className="soft">Comparing with how you print now…</p>;
  const { standing, reasons, lastCheck } = query.data;
  const { sign, says } = signs[standing];
  return (
    <section className={styles.panel} data-standing={standing} aria-labelledby="standing-title">
      <h2 id="standing-title">
        <span className={styles.sign} aria-hidden="true">
          {sign}
        </span>
        {says}
      </h2>
      {reasons.length > 0 && (
        <dl className={styles.reasons}>
          {reasons.map((reason) => (
            <div key={reason.what + reason.sentence}>
              <dt>{whatNames[reason.what]}</dt>
              <dd>{reason.sentence}</dd>
            </div>
          ))}
        </dl>
      )}
      {standing === 'unknown' && reasons.length === 0 && (
        <p>Nobody said for which printer, ink, paper and blank it was measured.</p>
      )}
      <p>
        {lastCheck
          ? `Last checked on ${dayText(lastCheck.createdAt)}: ${deltaText(lastCheck.meanDeltaE00)} on average.`
          : 'Never checked by a second print.'}{' '}
        <Link to="/measure" search={{ start: 'check', path: path.id }}>
          Make a check sheet
        </Link>
      </p>
    </section>
  );
}
