import { Button, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { Reading } from '#contract';
import { useLearning } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import styles from './reading.module.css';

/** A path from a reading whose sheet this shop has no record of: nobody knows here how it was printed and pressed. */
export function LearnAlone({ reading }: { readonly reading: Reading }) {
  const navigate = useNavigate();
  const [name, setName] = useState('');
  const usual = reading.fileName.replace(/\.[^.]+$/, '');
  const learning = useLearning(reading.id, (pathId) => {
    void navigate({ to: '/paths/$pathId', params: { pathId } });
  });
  return (
    <form
      className={styles.alone}
      aria-label="Learn a path from it"
      onSubmit={(event) => {
        event.preventDefault();
        learning.learn({ readingIds: [reading.id], name: name.trim() || usual });
      }}
    >
      <p>
        This shop has no record of its sheet. A path can be learnt from it all the same; it will not know by
        which setup and recipe it came about.
      </p>
      <TextInput
        size="md"
        label="Call the path"
        placeholder={usual}
        value={name}
        maxLength={120}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      {learning.busy ? (
        <Working
          step={learning.job?.step || 'Beginning'}
          share={learning.job?.progress || null}
          onCancel={learning.cancel}
        />
      ) : (
        <div>
          <Button type="submit" size="md">
            Learn the path
          </Button>
        </div>
      )}
      {learning.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {learning.problem && <ProblemNote error={learning.problem} />}
    </form>
  );
}
