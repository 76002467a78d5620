import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { TestSheetOrderInput, TestSheetProposal } from '#contract';
import { useTestSheetPreview } from '../../api/index.js';
import { ProblemNote, usePreferences } from '../../frame/index.js';
import { sizeText } from '../../words/index.js';
import styles from './start.module.css';

/** The sheet as it will come, on the neutral ground. */
export function SheetPreview({
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
                : 'The test sheet as it will read on the pressed piece: patches in shuffled order, marks at the corners'
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
