import { FileButton } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { useLadderReading } from '../api/index.js';
import { PageDrop, ProblemNote, Working } from '../frame/index.js';
import styles from './press.module.css';

/** A scan of coupons of whichever ladder: they say themselves which. */
export function ReadCoupons() {
  const navigate = useNavigate();
  const work = useLadderReading('any', (ladderId) => {
    void navigate({ to: '/press/ladders/$ladderId', params: { ladderId } });
  });
  const take = (file: File | null | undefined) => {
    if (file && !work.busy) work.read(file, {});
  };
  return (
    <div className={styles.readAny}>
      <PageDrop words="Let go to have it read: the coupons themselves say which they are." onFile={take} />
      {work.busy ? (
        <Working
          step={work.job?.step || 'Sending it'}
          share={work.job?.progress || null}
          onCancel={work.cancel}
        />
      ) : (
        <p className="soft">
          Coupons scanned already? Drop the scan anywhere on this page, or{' '}
          <FileButton onChange={take} accept="image/png,image/jpeg,image/tiff,image/webp">
            {(props) => (
              <button type="button" className="link-button" {...props}>
                choose it
              </button>
            )}
          </FileButton>
          .
        </p>
      )}
      {work.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {work.problem && <ProblemNote error={work.problem} />}
    </div>
  );
}
