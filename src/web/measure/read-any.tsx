import { FileButton } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useReadingWork } from '../api/index.js';
import { PageDrop, ProblemNote, Working } from '../frame/index.js';
import styles from './measure.module.css';

/** A scan of whichever sheet: its own code says which, and the page goes on to what was read. */
export function ReadAny() {
  const navigate = useNavigate();
  const client = useQueryClient();
  const work = useReadingWork('any', (readingId) => {
    void client.invalidateQueries({ queryKey: ['readings'] });
    void navigate({ to: '/readings/$readingId', params: { readingId } });
  });
  const take = (file: File | null | undefined) => {
    if (file && !work.busy) work.read({ file, subject: 'piece', from: 'scan' });
  };
  return (
    <div className={styles.readAny}>
      <PageDrop words="Let go to have it read: the sheet itself says which it is." onFile={take} />
      {work.busy ? (
        <Working
          step={work.job?.step || 'Sending it'}
          share={work.job?.progress || null}
          onCancel={work.cancel}
        />
      ) : (
        <p className="soft">
          Scanned one already? Drop the scan anywhere on this page, or{' '}
          <FileButton onChange={take} accept="image/png,image/jpeg,image/tiff,image/webp">
            {(props) => (
              <button type="button" className="link-button" {...props}>
                choose it
              </button>
            )}
          </FileButton>
          : the sheet itself says which it is.
        </p>
      )}
      {work.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {work.problem && <ProblemNote error={work.problem} />}
    </div>
  );
}
