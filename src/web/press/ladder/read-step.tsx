import { Dropzone } from '@mantine/dropzone';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Ladder } from '#contract';
import { type LadderReading, useRemoveLadderPicture } from '../../api/index.js';
import { AskToRemove, PageDrop, ProblemNote, Working } from '../../frame/index.js';
import { ScannerField } from '../../test-sheet/index.js';
import { gradeText } from '../../words/index.js';
import { isKnown } from '../ladder-state.js';
import { JudgeList } from './judge-list.js';
import styles from './ladder.module.css';

/** Scans of the coupons, one or several; or one's own eyes. */
export function ReadStep({ ladder, work }: { readonly ladder: Ladder; readonly work: LadderReading }) {
  const [readerId, setReaderId] = useState<string | null>(null);
  const removing = useRemoveLadderPicture(ladder.sheetId);
  const [byEye, setByEye] = useState(
    ladder.pictures.length === 0 && ladder.coupons.some((coupon) => coupon.byEye !== null),
  );
  const take = (file: File | undefined) => {
    if (!file || work.busy) return;
    work.clear();
    work.read(file, { sheetId: ladder.sheetId, ...(readerId ? { readerId } : {}) });
  };
  const missing = ladder.coupons.filter((coupon) => !coupon.leftOut && !isKnown(coupon));
  return (
    <>
      <PageDrop words="Let go to have the coupons read." onFile={take} />
      <p>
        Lay the pressed coupons on the scanner’s glass, as many as fit, in any order and any way round: each
        says which it is. 600 ppi, every automatic correction off. Several scans are joined.
      </p>
      <div className={styles.reader}>
        <ScannerField value={readerId} onChange={setReaderId} />
        <p className={styles.aside}>
          A ladder compares coupons with one another, so a scan as it comes will do.{' '}
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
        inputProps={{ 'aria-label': 'Scan of coupons' }}
        aria-label="Drop a scan of coupons here, or press to choose it"
      >
        <p className={styles.dropLead}>
          Drop {ladder.pictures.length === 0 ? 'the scan' : 'a further scan'} here
        </p>
        <p className="soft">
          or <span className={styles.asLink}>choose it</span>. All four corner marks of a coupon must be in
          the picture.
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
      {ladder.pictures.length > 0 && (
        <ul className={styles.pictures} aria-label="Scans read">
          {ladder.pictures.map((picture) => (
            <li key={picture.id}>
              <div>
                <strong>{picture.fileName}</strong>
                <span className="soft">
                  {' '}
                  {picture.coupons.length === 1 ? 'coupon' : 'coupons'} {picture.coupons.join(', ')} · grade{' '}
                  {gradeText(picture.grade)}
                  {picture.readerName ? ` · ${picture.readerName}` : ''}
                </span>
                {picture.remarks.map((remark) => (
                  <p key={remark} className={styles.remark}>
                    {remark}
                  </p>
                ))}
              </div>
              <AskToRemove what={picture.fileName} onRemove={() => removing.mutate(picture.id)} />
            </li>
          ))}
        </ul>
      )}
      {removing.error && <ProblemNote error={removing.error} />}
      {ladder.pictures.length > 0 && missing.length > 0 && (
        <p role="status">
          {missing.length === 1 ? 'Coupon' : 'Coupons'} {missing.map(({ number }) => number).join(', ')} not
          read yet.
        </p>
      )}
      <div>
        <button type="button" className="link-button" aria-expanded={byEye} onClick={() => setByEye(!byEye)}>
          {byEye ? 'Not by eye' : 'No scanner? Judge them by eye'}
        </button>
      </div>
      {byEye && <JudgeList ladder={ladder} />}
    </>
  );
}
