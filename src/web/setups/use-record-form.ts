import { useState } from 'react';
import type { z } from 'zod';
import { useRemoveRecord, useSaveRecord } from '../api/index.js';
import { usePreferences } from '../frame/index.js';
import { issueWords } from '../words/index.js';
import { freshId } from './new-records.js';

export interface RecordDraft<T> {
  readonly draft: T;
  set(change: Partial<T>): void;
  /** What is wrong with the field of that path, such as 'paper.widthMm'. */
  complaint(path: string): string | undefined;
  readonly complained: boolean;
  readonly busy: boolean;
  /** What the server said against keeping or removing. */
  readonly error: unknown;
  keep(): void;
  remove(): void;
}

/** A draft of a record, checked against its schema when kept, with each complaint at its field. */
export function useRecordForm<T extends { id: string; name: string; demo: boolean }>(options: {
  readonly kind: 'blanks' | 'setups' | 'presses';
  readonly record: T;
  readonly schema: z.ZodType<T>;
  readonly isNew: boolean;
  readonly taken: readonly { readonly id: string }[];
  onClose(): void;
}): RecordDraft<T> {
  const [draft, setDraft] = useState(options.record);
  const [complaints, setComplaints] = useState<Readonly<Record<string, string>>>({});
  const preferences = usePreferences();
  const saving = useSaveRecord<T>(options.kind);
  const removing = useRemoveRecord(options.kind);
  return {
    draft,
    set(change) {
      setDraft((old) => ({ ...old, ...change }));
    },
    complaint: (path) => complaints[path],
    complained: Object.keys(complaints).length > 0,
    busy: saving.isPending,
    error: saving.error ?? removing.error,
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
          Object.fromEntries(
            checked.error.issues.map((issue) => [issue.path.join('.'), issueWords(issue, preferences)]),
          ),
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
