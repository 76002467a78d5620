import { Radio } from '@mantine/core';
import { Dropzone } from '@mantine/dropzone';
import { useDocumentTitle } from '@mantine/hooks';
import { useEffect, useRef, useState } from 'react';
import type { ReadBackSubject } from '#contract';
import { useReadBack } from '../api/index.js';
import { PageDrop, ProblemNote, Working } from '../frame/index.js';
import styles from './read-back.module.css';
import { Verdict } from './verdict.js';

/** Drop a scan or photo of a sheet: was it mirrored once, is it to size, which one is it? */
export function ReadBackPage() {
  useDocumentTitle('Read back · Dyewright');
  const [subject, setSubject] = useState<ReadBackSubject>('paper');
  const [picture, setPicture] = useState<{ url: string; file: File } | null>(null);
  const reading = useReadBack();
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  useEffect(
    () => () => {
      if (picture) URL.revokeObjectURL(picture.url);
    },
    [picture],
  );

  const verdict = reading.data ? openedUp(reading.data.sentences) : null;

  const read = (file: File, of: ReadBackSubject) => {
    stop.current?.abort();
    stop.current = new AbortController();
    reading.mutate({ file, subject: of, signal: stop.current.signal });
  };
  const take = (file: File | undefined) => {
    if (!file) return;
    setPicture({ url: URL.createObjectURL(file), file });
    read(file, subject);
  };
  return (
    <div className={styles.page}>
      <PageDrop words="Let go to have it read." onFile={take} />
      <div className={styles.opening}>
        <h1>{verdict ? verdict.head : 'Is the printed sheet right?'}</h1>
        {!reading.data && (
          <p className="soft">
            Scan or photograph it, marks and all. It tells whether it was mirrored once and printed to size,
            and which sheet it is.
          </p>
        )}
      </div>
      {reading.data && picture && (
        <Verdict
          reading={reading.data}
          sentences={verdict?.rest ?? []}
          pictureUrl={picture.url}
          pictureName={picture.file.name}
        />
      )}
      {reading.error && <ProblemNote error={reading.error} />}
      <section className={styles.give} aria-label="Give a picture">
        <Radio.Group
          size="md"
          label="What is in the picture?"
          value={subject}
          onChange={(value) => {
            setSubject(value as ReadBackSubject);
            // The same picture says something else of a piece than of paper.
            if (picture) read(picture.file, value as ReadBackSubject);
          }}
        >
          <div className={styles.subjects}>
            <Radio
              size="md"
              value="paper"
              label="The printed paper"
              description="Before pressing: the best time to find out."
            />
            <Radio
              size="md"
              value="piece"
              label="The pressed piece"
              description="Only where the marks were pressed along with the picture."
            />
          </div>
        </Radio.Group>
        <Dropzone
          onDrop={(files) => take(files[0])}
          multiple={false}
          className={styles.drop}
          disabled={reading.isPending}
          inputProps={{ 'aria-label': 'Scan or photo' }}
          aria-label="Drop a scan or photo here, or press to choose one"
        >
          <p className={styles.dropLead}>
            {reading.data ? 'Drop another scan or photo' : 'Drop a scan or photo here'}
          </p>
          <p className="soft">
            or <span className={styles.asLink}>choose one</span>. Keep all corner marks in the picture; a scan
            also tells the size.
          </p>
        </Dropzone>
        {reading.isPending && (
          <Working
            step="Finding the marks"
            share={null}
            onCancel={() => {
              stop.current?.abort();
              reading.reset();
            }}
          />
        )}
      </section>
    </div>
  );
}

/** The verdict in a few words for the head of the page, and all the rest: the first sentence is split at its first pause. */
function openedUp(sentences: readonly string[]): { head: string; rest: string[] } {
  const [first = 'It has been read.', ...others] = sentences;
  const parts = /^(.+?)(?:: |[.;] )(.+)$/s.exec(first);
  if (!parts) return { head: first, rest: others };
  const [, head = '', rest = ''] = parts;
  return { head: `${head}.`, rest: [rest.charAt(0).toUpperCase() + rest.slice(1), ...others] };
}
