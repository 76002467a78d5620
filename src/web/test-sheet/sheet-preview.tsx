import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { TestSheetOrderInput, TestSheetProposal } from '#contract';
import { useTestSheetPreview } from '../api/index.js';
import { ProblemNote, usePreferences } from '../frame/index.js';
import { sizeText } from '../words/index.js';
import styles from './test-sheet.module.css';

const readsAs: Partial<Record<TestSheetOrderInput['kind'], string>> = {
  ladder:
    'The sheet of coupons as it will read once pressed: each with its number, its marks and its patches',
  evenness: 'The evenness sheet as it will read once pressed: one middle tone, marks at the corners',
};

/** The sheet as it will come, on the neutral ground; `missing` is said while there is nothing to draw. */
export function SheetPreview(props: {
  readonly order: TestSheetOrderInput | null;
  readonly proposal: TestSheetProposal | null;
  readonly missing: string;
}) {
  return props.order ? (
    <Preview order={props.order} proposal={props.proposal} />
  ) : (
    <div className={styles.preview}>
      <div className={styles.ground}>
        <p className={styles.wait}>{props.missing}</p>
      </div>
    </div>
  );
}

function Preview({
  order,
  proposal,
}: {
  readonly order: TestSheetOrderInput;
  readonly proposal: TestSheetProposal | null;
}) {
  const [view, setView] = useState<'paper' | 'pressed'>('pressed');
  const preview = useTestSheetPreview(order, view);
  const { lengthUnit } = usePreferences();
  return (
    <div className={styles.preview}>
      <div className={styles.previewHead}>
        <SegmentedControl
          size="sm"
          aria-label="How the sheet is shown"
          value={view}
          onChange={(value) => setView(value as typeof view)}
          data={[
            { value: 'pressed', label: 'As it will read' },
            { value: 'paper', label: 'On paper' },
          ]}
        />
        {proposal && (
          <span className="soft figures">{sizeText(proposal.widthMm, proposal.heightMm, lengthUnit)}</span>
        )}
      </div>
      <div className={styles.ground} aria-busy={preview.isFetching}>
        {preview.url ? (
          <img
            src={preview.url}
            alt={
              view === 'paper'
                ? 'The test sheet as it will lie in the printer’s tray'
                : (readsAs[order.kind] ??
                  'The test sheet as it will read on the pressed piece: patches in shuffled order, marks at the corners')
            }
          />
        ) : (
          !preview.error && <p className={styles.wait}>Drawing the sheet…</p>
        )}
      </div>
      {preview.error && <ProblemNote error={preview.error} onAgain={() => void preview.refetch()} />}
    </div>
  );
}
