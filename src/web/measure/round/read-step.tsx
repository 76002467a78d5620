import { Button, Checkbox, FileInput, Radio, Select } from '@mantine/core';
import { Dropzone } from '@mantine/dropzone';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { ReadBackSubject, TestSheet } from '#contract';
import { type Corners, type ReadingWork, useInstrumentFile, useReaders } from '../../api/index.js';
import { PageDrop, ProblemNote, Working } from '../../frame/index.js';
import { CornerPicker } from '../corner-picker.js';
import { kindOfFile } from './kind-of-file.js';
import styles from './round.module.css';

const lastReaderKey = (from: string) => `dyewright.reader.${from}`;
function lastReader(from: string): string | null {
  try {
    return localStorage.getItem(lastReaderKey(from));
  } catch {
    return null;
  }
}
function rememberReader(from: string, id: string | null) {
  try {
    if (id === null) localStorage.removeItem(lastReaderKey(from));
    else localStorage.setItem(lastReaderKey(from), id);
  } catch {
    // A browser that keeps nothing: asked again next time.
  }
}

/** Give a scan, a photo or an instrument's file, and have it read. */
export function ReadStep(props: {
  readonly sheet: TestSheet;
  /** Followed by the page, so that it goes on while this step is folded. */
  readonly work: ReadingWork;
  onRead(readingId: string): void;
}) {
  const { sheet, work, onRead } = props;
  const readers = useReaders();
  const [from, setFrom] = useState<'scan' | 'photo'>('scan');
  const [subject, setSubject] = useState<ReadBackSubject>('piece');
  const [readerId, setReaderId] = useState<string | null>(() => lastReader('scan'));
  const [withCard, setWithCard] = useState(false);
  const [photo, setPhoto] = useState<File | null>(null);
  const [corners, setCorners] = useState<Corners | null>(null);
  const [values, setValues] = useState<File | null>(null);
  const instrument = useInstrumentFile();

  const fitting = (readers.data ?? []).filter((one) => (one.kind === 'phone') === (from === 'photo'));
  const reader = fitting.find((one) => one.id === readerId) ?? null;
  const read = (file: File, card?: { corners: Corners; values: File }) =>
    work.read({
      file,
      subject,
      from,
      sheetId: sheet.id,
      ...(reader ? { readerId: reader.id } : {}),
      ...(card ? { card } : {}),
    });
  const take = (file: File | undefined) => {
    if (!file || work.busy) return;
    instrument.reset();
    work.clear();
    if (kindOfFile(file) === 'measurements') {
      instrument.mutate({ file, sheetId: sheet.id }, { onSuccess: (reading) => onRead(reading.id) });
    } else if (from === 'photo' && withCard) {
      setPhoto(file);
      setCorners(null);
    } else read(file);
  };
  const busy = work.busy || instrument.isPending;
  return (
    <>
      <PageDrop words="Let go to have it read." onFile={take} />
      <div className={styles.readChoices}>
        <Radio.Group
          size="md"
          label="It comes as"
          value={from}
          onChange={(value) => {
            setFrom(value as typeof from);
            setReaderId(lastReader(value));
            setPhoto(null);
          }}
        >
          <div className={styles.radios}>
            <Radio
              size="md"
              value="scan"
              label="a scan"
              description="300 to 600 ppi, automatic correction off, the whole sheet"
            />
            <Radio
              size="md"
              value="photo"
              label="a photo"
              description="daylight from the side, no flash, straight from above"
            />
          </div>
        </Radio.Group>
        <Radio.Group
          size="md"
          label="Of"
          value={subject}
          onChange={(value) => setSubject(value as ReadBackSubject)}
        >
          <div className={styles.radios}>
            <Radio size="md" value="piece" label="the pressed piece" />
            <Radio
              size="md"
              value="paper"
              label="the paper, before pressing"
              description="tells whether it printed right; no path comes of it"
            />
          </div>
        </Radio.Group>
        <div>
          <Select
            size="md"
            label={from === 'scan' ? 'Which scanner' : 'Which phone'}
            placeholder="None of mine"
            clearable
            clearButtonProps={{ 'aria-label': 'None of mine' }}
            data={fitting.map((one) => ({
              value: one.id,
              label: one.calibration ? `${one.name}, calibrated` : `${one.name}, not calibrated`,
            }))}
            value={reader?.id ?? null}
            onChange={(id) => {
              setReaderId(id);
              rememberReader(from, id);
            }}
          />
          <p className={styles.aside}>
            {reader?.calibration
              ? 'Calibrated: the reading will be of grade B.'
              : 'Without calibration the reading is of grade D. '}
            {!reader?.calibration && (
              <Link to="/measure" hash="readers">
                Add or calibrate one
              </Link>
            )}
          </p>
        </div>
        {from === 'photo' && (
          <Checkbox
            size="md"
            label="A card of known patches lies in the picture"
            description="With its file of values the reading is of grade C"
            checked={withCard}
            onChange={(event) => {
              setWithCard(event.currentTarget.checked);
              setPhoto(null);
            }}
          />
        )}
      </div>
      {readers.error && <ProblemNote error={readers.error} />}

      {photo && withCard ? (
        <div className={styles.card}>
          <CornerPicker picture={photo} what="the card" corners={corners} onChange={setCorners} />
          <FileInput
            size="md"
            label="The card’s file of values"
            description="CGATS text, from the card’s maker"
            placeholder="Choose a .txt file"
            accept=".txt,.cgats,.csv,text/plain"
            value={values}
            onChange={setValues}
          />
          <div className="row">
            <Button
              size="md"
              disabled={!corners || !values || busy}
              onClick={() => corners && values && read(photo, { corners, values })}
            >
              Read it
            </Button>
            <button type="button" className="link-button" onClick={() => setPhoto(null)}>
              Another photo
            </button>
          </div>
        </div>
      ) : (
        <Dropzone
          onDrop={(files) => take(files[0])}
          multiple={false}
          className={styles.drop}
          disabled={busy}
          inputProps={{ 'aria-label': from === 'scan' ? 'Scan' : 'Photo' }}
          aria-label={`Drop the ${from} or an instrument’s file here, or press to choose it`}
        >
          <p className={styles.dropLead}>Drop the {from} here</p>
          <p className="soft">
            or <span className={styles.asLink}>choose it</span>. An instrument’s file (CGATS, CSV) is taken
            here too. All corner marks must be in the picture.
          </p>
        </Dropzone>
      )}
      {busy && (
        <Working
          step={work.job?.step || 'Sending it'}
          share={work.job?.progress || null}
          {...(work.busy ? { onCancel: work.cancel } : {})}
        />
      )}
      {work.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {work.problem && <ProblemNote error={work.problem} />}
      {instrument.error && <ProblemNote error={instrument.error} />}
    </>
  );
}
