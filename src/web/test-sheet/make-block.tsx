import { Button } from '@mantine/core';
import type { TestSheetProposal } from '#contract';
import type { useTestSheetMaking, useTestSheetProposal } from '../api/index.js';
import { ProblemNote, Said, Told, Working } from '../frame/index.js';
import styles from './test-sheet.module.css';

/**
 * Where an order stands, what is remarked of it, and making it.
 */
export function MakeBlock(props: {
  readonly proposal: ReturnType<typeof useTestSheetProposal>;
  readonly making: ReturnType<typeof useTestSheetMaking>;
  readonly standing: string | null;
  readonly remarks: TestSheetProposal['remarks'];
  readonly error: unknown;
  readonly ready: boolean;
  /** 'Make the sheet' */
  readonly words: string;
}) {
  const { proposal, making, standing, remarks, error, ready, words } = props;
  return (
    <>
      {standing && (
        <p className={styles.standing}>
          <Told text={standing} />
        </p>
      )}
      <Said text={proposal.isFetching ? '' : (standing ?? '')} />
      {remarks.map((remark) => (
        <p key={remark} className="soft">
          <Told text={remark} />
        </p>
      ))}
      {error ? <ProblemNote error={error} onAgain={() => void proposal.refetch()} /> : null}
      {making.busy ? (
        <Working
          step={making.job?.step || 'Beginning'}
          share={making.job?.progress || null}
          onCancel={making.cancel}
        />
      ) : (
        <div>
          <Button type="submit" size="lg" disabled={!ready}>
            {words}
          </Button>
        </div>
      )}
      {making.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {making.problem && <ProblemNote error={making.problem} />}
    </>
  );
}
