import { problemOf } from '../api/index.js';
import styles from './problem-note.module.css';

/** What went wrong and what to do, in the server's words, where it went wrong. */
export function ProblemNote({ error, onAgain }: { readonly error: unknown; onAgain?(): void }) {
  const problem = problemOf(error);
  return (
    <div className={styles.note} role="alert">
      <strong>{problem.title}</strong>
      <p>{problem.detail}</p>
      {problem.remedy && <p className={styles.remedy}>{problem.remedy}</p>}
      {onAgain && (
        <button type="button" className="link-button" onClick={onAgain}>
          Try again
        </button>
      )}
    </div>
  );
}
