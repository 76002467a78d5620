import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Reading } from '#contract';
import { measurementsUrl, useReadingPatches } from '../../api/index.js';
import { ProblemNote } from '../../frame/index.js';
import { differenceWords, labText } from '../../words/index.js';
import { warningText } from '../words.js';
import { Doubtful } from './doubtful.js';
import { EvennessMap } from './evenness-map.js';
import { OverlayPicture } from './overlay-picture.js';
import { PatchBoard } from './patch-board.js';
import styles from './reading.module.css';
import { Trust } from './trust.js';

/** What was read: first in words, then the picture, then the figures. Children stand beside the picture. */
export function ReadingView(props: { readonly reading: Reading; readonly children?: ReactNode }) {
  const { reading, children } = props;
  const patches = useReadingPatches(reading.id);
  const [first, ...others] = reading.sentences;
  // The grade has a place of its own below; it is not said twice.
  const rest = others.filter((sentence) => !sentence.includes(`(grade ${reading.grade})`));
  return (
    <div className={styles.view}>
      <div className={styles.said}>
        {first && <p className={styles.first}>{first}</p>}
        {rest.length > 0 && (
          <ul className={styles.rest}>
            {rest.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        )}
      </div>
      <div className={styles.pair}>
        {reading.overlay && <OverlayPicture reading={reading} />}
        <div className={styles.part}>
          <Trust reading={reading} />
          {children}
        </div>
      </div>
      {patches.error && <ProblemNote error={patches.error} onAgain={() => void patches.refetch()} />}
      <div className={styles.pair}>
        {patches.data && (
          <section aria-labelledby={`board-${reading.id}`} className={styles.part}>
            <h3 id={`board-${reading.id}`}>Sent and seen</h3>
            <PatchBoard patches={patches.data} />
            <Doubtful patches={patches.data} />
          </section>
        )}
        <section aria-labelledby={`even-${reading.id}`} className={styles.part}>
          <h3 id={`even-${reading.id}`}>How well it repeats</h3>
          {reading.repeatability ? (
            <p>
              The same colour in different places came out{' '}
              <strong>{reading.repeatability.meanDeltaE00.toFixed(1)} ΔE00</strong> apart on average (
              {differenceWords(reading.repeatability.meanDeltaE00)}), told from{' '}
              {reading.repeatability.patches} patches.
            </p>
          ) : (
            <p className="soft">No colour came twice, so it cannot be told.</p>
          )}
          {reading.evenness && (
            <>
              <h3>How even the press was</h3>
              <EvennessMap evenness={reading.evenness} />
            </>
          )}
          {reading.lightRatio !== null && (
            <p className="soft">
              {reading.lightRatio < 1.01
                ? 'The reader’s own light was even, within 1\u00a0%.'
                : `The reader’s own light was ${Math.round((reading.lightRatio - 1) * 100)}\u00a0% stronger at its strongest than at its weakest; that was taken out by the bare ground.`}
            </p>
          )}
        </section>
      </div>
      <details className={styles.figuresFold}>
        <summary>Figures</summary>
        <dl className={styles.figures}>
          <dt>Bare ground</dt>
          <dd>{labText(reading.groundLab, 1)} (D50, 2°)</dd>
          {reading.pixelsPerMm !== null && (
            <>
              <dt>Seen at</dt>
              <dd>
                {reading.pixelsPerMm.toFixed(1)} pixels a millimetre ({Math.round(reading.pixelsPerMm * 25.4)}{' '}
                ppi)
              </dd>
            </>
          )}
          <dt>Patches</dt>
          <dd>
            {reading.soundCount} of {reading.patchCount} sound
          </dd>
          {reading.readerName && (
            <>
              <dt>Reader</dt>
              <dd>{reading.readerName}</dd>
            </>
          )}
          <dt>File</dt>
          <dd>{reading.fileName}</dd>
        </dl>
        {patches.data && (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls must be reached by keyboard
          <section className={styles.tableBox} tabIndex={0} aria-label="Every patch with its values">
            <table className={styles.table}>
              <caption className="said-only">Every patch with its values</caption>
              <thead>
                <tr>
                  <th scope="col">Place</th>
                  <th scope="col">Sent</th>
                  <th scope="col">Seen L* a* b*</th>
                  <th scope="col">±</th>
                  <th scope="col">Noted</th>
                </tr>
              </thead>
              <tbody>
                {patches.data.map((patch) => (
                  <tr key={patch.index}>
                    <th scope="row">
                      {patch.column + 1} · {patch.row + 1}
                    </th>
                    <td>{patch.deviceRgb.map(Math.round).join(' ')}</td>
                    <td>{patch.lab.map((v) => v.toFixed(1).replace('-', '\u2212')).join('  ')}</td>
                    <td>{Math.max(...patch.sdLab).toFixed(1)}</td>
                    <td>
                      {patch.sound ? '' : 'left out: '}
                      {patch.warnings.map(warningText).join(', ')}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </details>
      <div className="row">
        <Button component="a" href={measurementsUrl(reading)} download variant="default">
          Save the measurements (CGATS)
        </Button>
      </div>
    </div>
  );
}
