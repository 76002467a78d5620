import { Progress } from '@mantine/core';
import styles from './working.module.css';

/** Something is being done: what, how far when known, and a way to stop it. */
export function Working(props: { readonly step: string; readonly share: number | null; onCancel?(): void }) {
  const { step, share, onCancel } = props;
  return (
    <div className={styles.working}>
      <div className={styles.words}>
        <span role="status">{step}</span>
        {share !== null && (
          <span className="figures" aria-hidden="true">
            {Math.round(share * 100)} %
          </span>
        )}
      </div>
      {share === null ? (
        // Without a value: how far it is cannot be told.
        <div role="progressbar" aria-label={step} className={styles.endless}>
          <i />
        </div>
      ) : (
        <Progress value={Math.max(2, share * 100)} size="lg" aria-label={step} />
      )}
      {onCancel && (
        <button type="button" className="link-button" onClick={onCancel}>
          Stop
        </button>
      )}
    </div>
  );
}
