import { Button, Radio, Textarea, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { Reader, ReaderKind } from '#contract';
import { useKeepReader } from '../../api/index.js';
import { ProblemNote } from '../../frame/index.js';
import { freeId } from './free-id.js';
import styles from './readers.module.css';

/** Add a scanner or phone, or change its name and note. */
export function ReaderForm(props: {
  readonly reader: Reader | null;
  readonly taken: readonly Reader[];
  onClose(): void;
}) {
  const { reader, taken, onClose } = props;
  const [name, setName] = useState(reader?.name ?? '');
  const [kind, setKind] = useState<ReaderKind>(reader?.kind ?? 'scanner');
  const [note, setNote] = useState(reader?.note ?? '');
  const keeping = useKeepReader();
  return (
    <form
      className={styles.form}
      aria-label={reader ? reader.name : 'New scanner or phone'}
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() === '') return;
        keeping.mutate(
          {
            id: reader?.id ?? freeId(name, taken),
            reader: { name: name.trim(), kind, note: note.trim(), demo: reader?.demo ?? false },
          },
          { onSuccess: onClose },
        );
      }}
    >
      <TextInput
        size="md"
        label="Name"
        placeholder="Flatbed on the shelf"
        value={name}
        maxLength={120}
        onChange={(event) => setName(event.currentTarget.value)}
        autoFocus={reader === null}
      />
      <Radio.Group size="md" label="It is" value={kind} onChange={(value) => setKind(value as ReaderKind)}>
        <div className={styles.radios}>
          <Radio size="md" value="scanner" label="a scanner" />
          <Radio size="md" value="phone" label="a phone or camera" />
        </div>
      </Radio.Group>
      <Textarea
        size="md"
        label="Settings to keep alike"
        description="A calibration holds for these"
        placeholder="300 ppi, 24-bit colour, automatic exposure and sharpening off"
        autosize
        minRows={2}
        maxLength={500}
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      {keeping.error && <ProblemNote error={keeping.error} />}
      <div className="row">
        <Button type="submit" size="md" disabled={name.trim() === ''} loading={keeping.isPending}>
          Keep
        </Button>
        <button type="button" className="link-button" onClick={onClose}>
          Leave it
        </button>
      </div>
    </form>
  );
}
