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
      <Progress
        value={share === null ? 100 : Math.max(2, share * 100)}
        striped={share === null}
        animated={share === null}
        size="lg"
        aria-label={step}
      />
      {onCancel && (
        <button type="button" className="link-button" onClick={onCancel}>
          Stop
        </button>
      )}
    </div>
  );
}
