import styles from './measure.module.css';
import type { RoundState } from './round-state.js';
import { stageNames } from './words.js';

/** How far a round has come: filled discs behind, an open ring ahead, each with its word. */
export function StageLine({ stages }: { readonly stages: RoundState['stages'] }) {
  const next = stages.findIndex((one) => !one.done);
  return (
    <span className={styles.stages}>
      {stages.map(({ stage, done }, i) => (
        <span
          key={stage}
          className={styles.stage}
          data-done={done || undefined}
          data-next={i === next || undefined}
        >
          <svg viewBox="0 0 16 16" width={16} height={16} aria-hidden="true">
            <circle
              cx={8}
              cy={8}
              r={6}
              fill={done ? 'currentColor' : 'none'}
              stroke="currentColor"
              strokeWidth={i === next ? 2.5 : 1.5}
              strokeDasharray={done || i === next ? undefined : '2.4 2.4'}
            />
          </svg>
          <span>
            <span className="said-only">{done ? 'done: ' : 'to come: '}</span>
            {stageNames[stage]}
          </span>
        </span>
      ))}
    </span>
  );
}
