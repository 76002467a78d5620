import { Textarea } from '@mantine/core';
import type { ReactNode } from 'react';
import { FormEnds } from './form-ends.js';
import styles from './setups.module.css';
import type { RecordDraft } from './use-record-form.js';

/** What the forms of all records share: the name said aloud, the note at the end, keeping and removing. */
export function RecordForm(props: {
  /** What the form is called while the record is new. */
  readonly newName: string;
  readonly isNew: boolean;
  readonly form: RecordDraft<{ name: string; note: string }>;
  onClose(): void;
  readonly children: ReactNode;
}) {
  const { form, isNew } = props;
  return (
    <form
      className={styles.form}
      aria-label={isNew ? props.newName : form.draft.name}
      onSubmit={(event) => {
        event.preventDefault();
        form.keep();
      }}
    >
      {props.children}
      <Textarea
        size="md"
        label="Note"
        autosize
        minRows={1}
        value={form.draft.note}
        error={form.complaint('note')}
        onChange={(event) => form.set({ note: event.currentTarget.value })}
      />
      <FormEnds
        isNew={isNew}
        complained={form.complained}
        busy={form.busy}
        error={form.error}
        onKeep={form.keep}
        onClose={props.onClose}
        onRemove={form.remove}
      />
    </form>
  );
}
