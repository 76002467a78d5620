import { useState } from 'react';
import type { z } from 'zod';
import { useRemoveRecord, useSaveRecord } from '../api/index.js';
import { freshId } from './new-records.js';

/** A draft of a record, checked against its schema when kept, with each complaint at its field. */
export function useRecordForm<T extends { id: string; name: string; demo: boolean }>(options: {
  readonly kind: 'blanks' | 'setups';
  readonly record: T;
  readonly schema: z.ZodType<T>;
  readonly isNew: boolean;
  readonly taken: readonly { readonly id: string }[];
  onClose(): void;
}) {
  const [draft, setDraft] = useState(options.record);
  const [complaints, setComplaints] = useState<Readonly<Record<string, string>>>({});
  const saving = useSaveRecord<T>(options.kind);
  const removing = useRemoveRecord(options.kind);
  return {
    draft,
    set: (change: Partial<T>) => setDraft((old) => ({ ...old, ...change })),
    complaint: (path: string): string | undefined => complaints[path],
    complained: Object.keys(complaints).length > 0,
    saving,
    removing,
    keep() {
      const record = {
        ...draft,
        id: options.isNew ? freshId(draft.name, options.taken) : draft.id,
        // A demo record that a person has changed is theirs.
        demo: false,
      };
      const checked = options.schema.safeParse(record);
      if (!checked.success) {
        setComplaints(
          Object.fromEntries(checked.error.issues.map((issue) => [issue.path.join('.'), issue.message])),
        );
        return;
      }
      setComplaints({});
      saving.mutate(checked.data, { onSuccess: options.onClose });
    },
    remove() {
      removing.mutate(draft.id, { onSuccess: options.onClose });
    },
  };
}

export const toLines = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);
