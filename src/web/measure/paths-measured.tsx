import { Link } from '@tanstack/react-router';
import type { ColourPath, PathStanding } from '#contract';
import { dayText, trustText } from '../words/index.js';
import styles from './measure.module.css';

const standingWords: Record<PathStanding['standing'], string> = {
  fits: 'Fits the way things are printed now.',
  look: 'Worth a look',
  stale: 'No longer fits',
  unknown: 'Nobody said how it was printed, so it cannot tell whether it still fits.',
};

/** Paths measured here: how far each can be trusted, whether it still fits, and what to do. */
export function PathsMeasured(props: {
  readonly paths: readonly ColourPath[];
  readonly standings: readonly PathStanding[];
  readonly justLearnt: string | null;
}) {
  const { paths, standings, justLearnt } = props;
  if (paths.length === 0) return null;
  const newestFirst = [...paths].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  return (
    <section aria-labelledby="paths-title" className={styles.section}>
      <h2 id="paths-title">Colour paths</h2>
      <ul className={styles.paths}>
        {newestFirst.map((path) => {
          const standing = standings.find((one) => one.pathId === path.id);
          return (
            <li key={path.id} data-new={path.id === justLearnt || undefined}>
              <div className={styles.pathWords}>
                <h3>
                  <Link to="/paths/$pathId" params={{ pathId: path.id }}>
                    {path.name}
                  </Link>
                  {path.demo && <span className="demo-word"> · demo</span>}
                  {path.id === justLearnt && <span className="demo-word"> · learnt just now</span>}
                </h3>
                <p>{trustText(path)}</p>
                {standing && <StandingWords standing={standing} />}
              </div>
              <div className={styles.pathActs}>
                <Link to="/measure" search={{ start: 'check', path: path.id }} resetScroll={false}>
                  Check it<span className="said-only">: {path.name}</span>
                </Link>
                {path.origin === 'measured' && (
                  <Link to="/measure" search={{ start: 'follow-up', path: path.id }} resetScroll={false}>
                    Make it surer<span className="said-only">: {path.name}</span>
                  </Link>
                )}
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function StandingWords({ standing }: { readonly standing: PathStanding }) {
  const { lastCheck, reasons } = standing;
  const bad = standing.standing === 'look' || standing.standing === 'stale';
  return (
    <p className="soft">
      {bad ? (
        <>
          <strong className={styles.bad}>{standingWords[standing.standing]}:</strong>{' '}
          {reasons[0]?.sentence ?? 'it differs from how it was measured.'}
        </>
      ) : (
        standingWords[standing.standing]
      )}{' '}
      {lastCheck
        ? `Checked ${dayText(lastCheck.createdAt)}: ${lastCheck.meanDeltaE00.toFixed(1)} ΔE00 on average.`
        : 'Not checked yet.'}
    </p>
  );
}
