import { SegmentedControl } from '@mantine/core';
import { Suspense, useState } from 'react';
import type { Blank, PrintSetup, SheetProposal, SheetRequestInput } from '#contract';
import { developBlank } from '#craft/blank';
import { usePreview } from '../api/index.js';
import { ProblemNote, usePreferences } from '../frame/index.js';
import { PieceView } from '../piece/index.js';
import { lengthText, sizeText } from '../words/index.js';
import styles from './previews.module.css';

interface Props {
  readonly request: SheetRequestInput;
  readonly blank: Blank;
  readonly setup: PrintSetup;
  readonly proposal: SheetProposal | null;
}

/** Side by side: what comes out of the printer, and what comes out of the press. */
export function Previews(props: Props) {
  return (
    <div className={styles.pair}>
      <OnPaper {...props} />
      <AsPressed {...props} />
    </div>
  );
}

function OnPaper({ request, blank, setup, proposal }: Props) {
  const { lengthUnit } = usePreferences();
  const [closer, setCloser] = useState(false);
  const preview = usePreview(request, 'paper', closer ? 2600 : 1400);
  const bySheet = setup.mirroredBy === 'sheet';
  return (
    <section aria-labelledby="paper-title" className={styles.view} data-closer={closer || undefined}>
      <div className={styles.heading}>
        <h2 id="paper-title">On paper</h2>
        <button
          type="button"
          className="link-button"
          aria-expanded={closer}
          onClick={() => setCloser(!closer)}
        >
          {closer ? 'Step back' : 'Look closer'}
        </button>
      </div>
      <div className={styles.ground} aria-busy={preview.isFetching}>
        {preview.url && (
          <figure className={styles.sheet}>
            {proposal && (
              <span className={styles.across}>{lengthText(proposal.sheetWidthMm, lengthUnit)}</span>
            )}
            {proposal && (
              <span className={styles.along}>{lengthText(proposal.sheetHeightMm, lengthUnit)}</span>
            )}
            <img
              src={preview.url}
              alt={
                bySheet
                  ? 'The sheet as it will lie in the printer’s tray: mirrored, lettering backwards, with its marks'
                  : 'The sheet as written: the right way round, since the driver mirrors it'
              }
            />
          </figure>
        )}
        {!preview.url && !preview.error && <p className={styles.wait}>Drawing the sheet…</p>}
      </div>
      {preview.error && <ProblemNote error={preview.error} onAgain={() => void preview.refetch()} />}
      <p className={styles.caption}>{paperCaption(bySheet, blank.coating.seenThrough === true)}</p>
    </section>
  );
}

function paperCaption(bySheet: boolean, seenThrough: boolean): string {
  const mirrored = bySheet ? 'backwards' : 'the right way';
  const what = seenThrough
    ? `The marked line reads ${mirrored} here; the picture lies the other way round, because it is looked at through the piece.`
    : `Lettering reads ${mirrored} here${bySheet ? ', as it must: the sheet is mirrored once, marks and all' : ''}.`;
  const driver = bySheet
    ? 'Leave mirroring off in the printer driver.'
    : 'With this setup the printer driver does the mirroring: turn it on there.';
  return `${what} ${driver}`;
}

function AsPressed({ request, blank, proposal }: Props) {
  const { lengthUnit } = usePreferences();
  const [how, setHow] = useState<'shape' | 'flat'>('shape');
  const [drawable, setDrawable] = useState(true);
  const preview = usePreview(request, 'pressed');
  // Not the trim on the sheet: there the piece may lie turned.
  const face = developBlank(blank.shape);
  const onShape = how === 'shape' && drawable;
  return (
    <section aria-labelledby="pressed-title" className={styles.view}>
      <div className={styles.heading}>
        <h2 id="pressed-title">As pressed</h2>
        {drawable && (
          <SegmentedControl
            size="sm"
            aria-label="How the piece is shown"
            value={how}
            onChange={(value) => setHow(value as typeof how)}
            data={[
              { value: 'shape', label: 'On the piece' },
              { value: 'flat', label: 'Laid flat' },
            ]}
          />
        )}
      </div>
      <div className={styles.ground} aria-busy={preview.isFetching}>
        {preview.url && onShape && (
          <Suspense fallback={<p className={styles.wait}>Fetching the piece…</p>}>
            <PieceView blank={blank} pictureUrl={preview.url} onUnavailable={() => setDrawable(false)} />
          </Suspense>
        )}
        {preview.url && !onShape && (
          <figure className={styles.sheet} data-form={face.form}>
            <span className={styles.across}>{lengthText(face.widthMm, lengthUnit)}</span>
            <span className={styles.along}>{lengthText(face.heightMm, lengthUnit)}</span>
            <img src={preview.url} alt={`${blank.name} as pressed, laid flat, reading the right way`} />
          </figure>
        )}
        {!preview.url && !preview.error && <p className={styles.wait}>Drawing the piece…</p>}
      </div>
      {preview.error && <ProblemNote error={preview.error} onAgain={() => void preview.refetch()} />}
      <p className={styles.caption}>
        The picture is {sizeText(face.widthMm, face.heightMm, lengthUnit)}.{' '}
        {!proposal
          ? ''
          : proposal.colour.calibrated
            ? `Colours as ${proposal.colour.pathName ?? 'the colour path'} foretells them${onShape ? '; the lamp on the piece shades them, so judge them laid flat.' : '.'}`
            : 'Colours as in the artwork: what the press makes of them is not known yet.'}
      </p>
    </section>
  );
}
