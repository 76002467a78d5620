import { Button } from '@mantine/core';
import { useState } from 'react';
import type { Reader } from '#contract';
import { useReaders, useRemoveReader } from '../../api/index.js';
import { AskToRemove, ProblemNote } from '../../frame/index.js';
import { dayText, deltaText } from '../../words/index.js';
import { CalibrateReader } from './calibrate-reader.js';
import { ReaderForm } from './reader-form.js';
import styles from './readers.module.css';

type Open = { readonly id: string; readonly what: 'change' | 'calibrate' } | { readonly what: 'add' } | null;

/** Scanners and phones, and what is known of how they see. */
export function ReadersSection() {
  const readers = useReaders();
  const removing = useRemoveReader();
  const [open, setOpen] = useState<Open>(null);
  const isOpen = (id: string, what: 'change' | 'calibrate') =>
    open !== null && 'id' in open && open.id === id && open.what === what;
  const toggle = (id: string, what: 'change' | 'calibrate') =>
    setOpen(isOpen(id, what) ? null : { id, what });
  return (
    <section aria-labelledby="readers" className={styles.section}>
      <div className={styles.heading}>
        <h2 id="readers" tabIndex={-1}>
          Scanners and phones
        </h2>
        <Button
          variant="default"
          aria-expanded={open?.what === 'add'}
          onClick={() => setOpen(open?.what === 'add' ? null : { what: 'add' })}
        >
          Add one
        </Button>
      </div>
      <p className="soft">
        Each sees colours in its own way. Calibrated once, with the ink you use, it is taken at far more than
        its own word (grade B).
      </p>
      {readers.error && <ProblemNote error={readers.error} onAgain={() => void readers.refetch()} />}
      {open?.what === 'add' && (
        <ReaderForm reader={null} taken={readers.data ?? []} onClose={() => setOpen(null)} />
      )}
      <ul className={styles.list}>
        {readers.data?.map((reader) => (
          <li key={reader.id}>
            <div className={styles.row}>
              <ReaderDrawing kind={reader.kind} />
              <div className={styles.words}>
                <h3 className={styles.name}>
                  {reader.name}
                  {reader.demo && <span className="demo-word"> · demo</span>}
                </h3>
                <p className="soft">{calibrationText(reader)}</p>
                {reader.note && <p className="soft">{reader.note}</p>}
              </div>
              <div className={styles.acts}>
                <button
                  type="button"
                  className="link-button"
                  aria-expanded={isOpen(reader.id, 'calibrate')}
                  aria-label={`Calibrate ${reader.name}`}
                  onClick={() => toggle(reader.id, 'calibrate')}
                >
                  {reader.calibration ? 'Calibrate anew' : 'Calibrate'}
                </button>
                <button
                  type="button"
                  className="link-button"
                  aria-expanded={isOpen(reader.id, 'change')}
                  aria-label={`Change ${reader.name}`}
                  onClick={() => toggle(reader.id, 'change')}
                >
                  Change
                </button>
                <AskToRemove what={reader.name} onRemove={() => removing.mutate(reader.id)} />
              </div>
            </div>
            {isOpen(reader.id, 'change') && (
              <ReaderForm reader={reader} taken={readers.data} onClose={() => setOpen(null)} />
            )}
            {isOpen(reader.id, 'calibrate') && (
              <CalibrateReader reader={reader} onClose={() => setOpen(null)} />
            )}
          </li>
        ))}
        {readers.data?.length === 0 && open?.what !== 'add' && (
          <li className={styles.none}>None yet. Without one, scans are taken at their own word (grade D).</li>
        )}
      </ul>
      {removing.error && <ProblemNote error={removing.error} />}
    </section>
  );
}

function calibrationText({ calibration }: Reader): string {
  if (!calibration) return 'Not calibrated: its readings are of grade D.';
  const by =
    calibration.by === 'same-ink' ? 'with pressed patches of the same ink' : 'with a reference target';
  const where = calibration.setupName ? ` (${calibration.setupName})` : '';
  return `Calibrated ${by}${where}, ${dayText(calibration.createdAt)}: grade B, within ${deltaText(calibration.expectedError.meanDeltaE00)} on average, told from ${calibration.samples} patches.`;
}

/** A flatbed with its lid, or a phone. Decoration: the name stands beside it. */
function ReaderDrawing({ kind }: { readonly kind: Reader['kind'] }) {
  return (
    <svg
      viewBox="0 0 56 44"
      width={56}
      height={44}
      className={styles.drawing}
      fill="var(--raised)"
      stroke="currentColor"
      strokeWidth={1.5}
      strokeLinejoin="round"
      strokeLinecap="round"
      aria-hidden="true"
    >
      {kind === 'scanner' ? (
        <>
          <path d="M6 28 H50 V37 H6 Z" />
          <path d="M6 28 L12 9 H50" fill="none" />
          <path d="M6 28 L14 12 H54 L50 28 Z" />
          <path d="M11 32.5 H22" />
        </>
      ) : (
        <>
          <rect x={18} y={3} width={20} height={38} rx={3.5} />
          <circle cx={28} cy={9} r={2.2} fill="none" />
          <path d="M25 37 H31" />
        </>
      )}
    </svg>
  );
}
