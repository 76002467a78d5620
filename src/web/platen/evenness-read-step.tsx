import { Dropzone } from '@mantine/dropzone';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { EvennessWork } from '../api/index.js';
import { PageDrop, ProblemNote, Working } from '../frame/index.js';
import { ScannerField } from '../test-sheet/index.js';
import styles from './evenness.module.css';

/** Give the scan of the pressed sheet, and have it read. */
export function EvennessReadStep(props: {
  readonly sheetId: string;
  readonly pressId: string | null;
  /** Followed by the page, so that it goes on while this step is folded. */
  readonly work: EvennessWork;
}) {
  const { sheetId, pressId, work } = props;
  const [readerId, setReaderId] = useState<string | null>(null);
  const take = (file: File | undefined) => {
    if (!file || work.busy) return;
    work.clear();
    work.read(file, { sheetId, ...(pressId ? { pressId } : {}), ...(readerId ? { readerId } : {}) });
  };
  return (
    <>
      <PageDrop words="Let go to have it read." onFile={take} />
      <p>
        Scan the pressed piece whole, all four corner marks in the picture, any way round: the sheet says
        where its back is. 200 ppi or more, every automatic correction off.
      </p>
      <div className={styles.reader}>
        <ScannerField value={readerId} onChange={setReaderId} />
        <p className={styles.aside}>
          A map holds places against one another, so a scan as it comes will do; the scanner’s own light is
          taken out by the bare ground between the cells.{' '}
          <Link to="/measure" hash="readers">
            Scanners and phones
          </Link>
        </p>
      </div>
      <Dropzone
        onDrop={(files) => take(files[0])}
        multiple={false}
        className={styles.drop}
        disabled={work.busy}
        inputProps={{ 'aria-label': 'Scan of the evenness sheet' }}
        aria-label="Drop the scan here, or press to choose it"
      >
        <p className={styles.dropLead}>Drop the scan here</p>
        <p className="soft">
          or <span className={styles.asLink}>choose it</span>. Too large for the glass? A photo from straight
          above in even light will do, less surely.
        </p>
      </Dropzone>
      {work.busy && (
        <Working
          step={work.job?.step || 'Sending it'}
          share={work.job?.progress || null}
          onCancel={work.cancel}
        />
      )}
      {work.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {work.problem && <ProblemNote error={work.problem} />}
    </>
  );
}
