import { problemOf } from '../api/index.js';
import styles from './problem-note.module.css';
import { Told } from './told.js';

/** What went wrong and what to do, in the server's words, where it went wrong. */
export function ProblemNote({ error, onAgain }: { readonly error: unknown; onAgain?(): void }) {
  const problem = problemOf(error);
  // The particular sentence often opens with the general one.
  const saysItAll = problem.detail.toLowerCase().startsWith(problem.title.toLowerCase());
  return (
    <div className={styles.note} role="alert">
      <strong>
        <Told text={saysItAll ? problem.detail : problem.title} />
      </strong>
      {!saysItAll && (
        <p>
          <Told text={problem.detail} />
        </p>
      )}
      {problem.remedy && (
        <p>
          <b>What to do:</b> <Told text={problem.remedy} />
        </p>
      )}
      {onAgain && (
        <button type="button" className="link-button" onClick={onAgain}>
          Try again
        </button>
      )}
    </div>
  );
}
