import { type ReactNode, useId } from 'react';
import styles from './test-sheet.module.css';

export type StepState = 'done' | 'now' | 'later';
const stateWords: Record<StepState, string> = { done: 'done', now: 'now', later: 'later' };

/** One step of the round: folded to a line when it is not its turn, open in place when it is. */
export function Step(props: {
  readonly number: number;
  readonly title: string;
  /** Said beside the title while folded: what came of it. */
  readonly outcome?: string | undefined;
  readonly state: StepState;
  readonly open: boolean;
  onToggle(): void;
  readonly children: ReactNode;
}) {
  const { number, title, outcome, state, open, onToggle, children } = props;
  const id = useId();
  return (
    <section className={styles.step} data-state={state} aria-labelledby={`${id}-title`}>
      <h2 className={styles.stepHead}>
        <button type="button" aria-expanded={open} aria-controls={`${id}-body`} onClick={onToggle}>
          <StepSign number={number} state={state} />
          <span className={styles.stepTitle} id={`${id}-title`}>
            {title}
          </span>
          <span className={styles.stepState}>{!open && outcome ? outcome : stateWords[state]}</span>
        </button>
      </h2>
      <div id={`${id}-body`} className={styles.stepBody} hidden={!open}>
        {open && children}
      </div>
    </section>
  );
}

/** A filled disc with a tick, a ring with the number: told apart without colour, and the word stands beside it. */
function StepSign({ number, state }: { readonly number: number; readonly state: StepState }) {
  return (
    <svg viewBox="0 0 36 36" width={36} height={36} className={styles.sign} aria-hidden="true">
      <circle
        cx={18}
        cy={18}
        r={15.5}
        fill={state === 'done' ? 'currentColor' : 'none'}
        stroke="currentColor"
        strokeWidth={state === 'now' ? 3 : 1.6}
      />
      {state === 'done' ? (
        <path d="M11 18.5l5 5 9-11" fill="none" stroke="var(--panel)" strokeWidth={3} strokeLinecap="round" />
      ) : (
        <text x={18} y={24} textAnchor="middle" fontSize={17} fill="currentColor">
          {number}
        </text>
      )}
    </svg>
  );
}
