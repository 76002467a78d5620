import { Button, FileInput, Select, TextInput } from '@mantine/core';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { useBlanks, useLearning, useSetups } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import styles from './start.module.css';

/** A path straight from an instrument's file with device and colour columns. */
export function StartFile() {
  const setups = useSetups();
  const blanks = useBlanks();
  const navigate = useNavigate();
  const [file, setFile] = useState<File | null>(null);
  const [name, setName] = useState('');
  const [setupId, setSetupId] = useState<string | null>(null);
  const [blankId, setBlankId] = useState<string | null>(null);
  const learning = useLearning('file', (pathId) => {
    void navigate({ to: '/measure', search: { path: pathId } });
  });
  return (
    <section aria-labelledby="start-title" className={styles.start}>
      <div className={styles.lead}>
        <h2 id="start-title" tabIndex={-1}>
          From an instrument’s file
        </h2>
        <p>
          A text file in the open CGATS form, or CSV, with the numbers sent to the printer (RGB) and what the
          instrument saw (Lab, XYZ or spectra) for 30 patches or more.
        </p>
      </div>
      <form
        className={styles.fields}
        aria-label="From an instrument’s file"
        onSubmit={(event) => {
          event.preventDefault();
          if (!file || learning.busy) return;
          learning.learnFromFile(file, {
            name: name.trim() || file.name.replace(/\.[^.]+$/, ''),
            ...(setupId ? { setupId } : {}),
            ...(blankId ? { blankId } : {}),
          });
        }}
      >
        <FileInput
          size="md"
          label="Measurements"
          placeholder="Choose a .txt or .csv file"
          accept=".txt,.csv,.cgats,text/plain,text/csv"
          value={file}
          onChange={setFile}
          clearable
          clearButtonProps={{ 'aria-label': 'Choose another file' }}
        />
        <TextInput
          size="md"
          label="Call the path"
          placeholder="Desk printer on slate, autumn"
          value={name}
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <Select
          size="md"
          label="Printed with"
          description="Left open, the path does not say when it has gone stale."
          placeholder="Nobody said"
          clearable
          clearButtonProps={{ 'aria-label': 'Leave the print setup open' }}
          data={(setups.data ?? []).map((setup) => ({ value: setup.id, label: setup.name }))}
          value={setupId}
          onChange={setSetupId}
        />
        <Select
          size="md"
          label="Pressed on"
          placeholder="Nobody said"
          searchable
          clearable
          clearButtonProps={{ 'aria-label': 'Leave the blank open' }}
          data={(blanks.data ?? []).map((blank) => ({ value: blank.id, label: blank.name }))}
          value={blankId}
          onChange={setBlankId}
        />
        {learning.busy ? (
          <Working
            step={learning.job?.step || 'Sending the file'}
            share={learning.job?.progress || null}
            onCancel={learning.cancel}
          />
        ) : (
          <div>
            <Button type="submit" size="lg" disabled={!file}>
              Learn the path
            </Button>
          </div>
        )}
        {learning.stopped && <p role="status">Stopped. Nothing was kept.</p>}
        {learning.problem && <ProblemNote error={learning.problem} />}
      </form>
      <p className={styles.other}>
        <Link to="/measure" search={{ start: 'colour' }} resetScroll={false}>
          With a test sheet of ours instead
        </Link>
      </p>
    </section>
  );
}
