import { Button, FileInput, Radio, Select } from '@mantine/core';
import { useState } from 'react';
import type { Reader } from '#contract';
import { type Corners, useCalibrate, useReadings } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import { deltaText } from '../../words/index.js';
import { CornerPicker } from '../corner-picker.js';
import { fromNames, momentText } from '../words.js';
import styles from './readers.module.css';

/** Teach a reader true colours: by a pressed sheet of the same ink, or by a reference target. */
export function CalibrateReader({ reader, onClose }: { readonly reader: Reader; onClose(): void }) {
  const [by, setBy] = useState<'same-ink' | 'target'>('same-ink');
  const [readingId, setReadingId] = useState<string | null>(null);
  const [values, setValues] = useState<File | null>(null);
  const [picture, setPicture] = useState<File | null>(null);
  const [corners, setCorners] = useState<Corners | null>(null);
  const readings = useReadings(null);
  const calibrating = useCalibrate(reader.id);
  const own = (readings.data ?? []).filter(
    (one) =>
      one.from !== 'instrument' && one.subject === 'piece' && (one.readerId ?? reader.id) === reader.id,
  );
  const ready =
    values !== null && (by === 'same-ink' ? readingId !== null : picture !== null && corners !== null);
  if (calibrating.data?.calibration) {
    const { calibration } = calibrating.data;
    return (
      <div className={styles.form} role="status">
        <p className={styles.big}>
          {reader.name} is calibrated: its readings come within{' '}
          {deltaText(calibration.expectedError.meanDeltaE00)} on average.
        </p>
        <p className="soft">
          Tried on patches that were left out of it; {calibration.samples} patches in all.
        </p>
        {calibration.remarks.length > 0 && (
          <ul>
            {calibration.remarks.map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
          </ul>
        )}
        <div>
          <Button variant="default" onClick={onClose}>
            Good
          </Button>
        </div>
      </div>
    );
  }
  return (
    <form
      className={styles.form}
      aria-label={`Calibrate ${reader.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        if (!values) return;
        if (by === 'same-ink' && readingId) calibrating.mutate({ by, readingId, values });
        if (by === 'target' && picture && corners) calibrating.mutate({ by, picture, corners, values });
      }}
    >
      <Radio.Group
        size="md"
        label="With"
        value={by}
        onChange={(value) => {
          setBy(value as typeof by);
          calibrating.reset();
        }}
      >
        <div className={styles.ways}>
          <Radio
            size="md"
            value="same-ink"
            label="a pressed test sheet of the same ink"
            description="Read it here once, have its patches measured by an instrument once. The better way: every ink looks different to a scanner."
          />
          <Radio
            size="md"
            value="target"
            label="a reference target"
            description="A bought card with rows and columns of patches and a file of its values. Made of other colourants than your ink, so less sure."
          />
        </div>
      </Radio.Group>
      {by === 'same-ink' ? (
        <>
          <Select
            size="md"
            label="The reading"
            description={`A ${reader.kind === 'scanner' ? 'scan' : 'photo'} by this reader`}
            placeholder={own.length === 0 ? 'None yet: read a pressed sheet first' : 'Which one?'}
            disabled={own.length === 0}
            data={own.map((one) => ({
              value: one.id,
              label: `${one.fileName}, ${fromNames[one.from]} of sheet ${one.sheetId}, ${momentText(one.createdAt)}`,
            }))}
            value={readingId}
            onChange={setReadingId}
          />
          {readings.error && <ProblemNote error={readings.error} />}
        </>
      ) : (
        <>
          <FileInput
            size="md"
            label="Picture of the target"
            description="Made with the settings you always use; PNG, JPEG or WebP"
            placeholder="Choose a picture"
            accept="image/png,image/jpeg,image/webp"
            value={picture}
            onChange={(file) => {
              setPicture(file);
              setCorners(null);
            }}
          />
          {picture && (
            <div className={styles.wide}>
              <CornerPicker picture={picture} what="the target" corners={corners} onChange={setCorners} />
            </div>
          )}
        </>
      )}
      <FileInput
        size="md"
        label={by === 'same-ink' ? 'The instrument’s file of that sheet' : 'The target’s file of values'}
        description="CGATS text or CSV"
        placeholder="Choose a .txt or .csv file"
        accept=".txt,.csv,.cgats,text/plain,text/csv"
        value={values}
        onChange={setValues}
      />
      {calibrating.isPending ? (
        <Working step="Learning how it sees" share={null} />
      ) : (
        <div className="row">
          <Button type="submit" size="md" disabled={!ready}>
            Calibrate
          </Button>
          <button type="button" className="link-button" onClick={onClose}>
            Leave it
          </button>
        </div>
      )}
      {calibrating.error && <ProblemNote error={calibrating.error} />}
    </form>
  );
}
