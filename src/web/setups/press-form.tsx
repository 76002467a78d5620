import { Select, Switch } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { type Press, pressSchema } from '#contract';
import { FigureField, LengthField, WordsField } from '../frame/index.js';
import { pressKindNames } from '../words/index.js';
import { DriveFields } from './drive-fields.js';
import { RecordForm } from './record-form.js';
import styles from './setups.module.css';
import { useRecordForm } from './use-record-form.js';

const faceNames: Record<Press['kind'], readonly [width: string, depth: string]> = {
  flat: ['Platen, left to right', 'Platen, back to front'],
  mug: ['Wrap laid flat, width', 'Wrap laid flat, height'],
  oven: ['Oven floor, left to right', 'Oven floor, back to front'],
};

/** Every value of a press. */
export function PressForm(props: {
  readonly press: Press;
  readonly isNew?: boolean;
  readonly taken: readonly Press[];
  onClose(): void;
}) {
  const form = useRecordForm<Press>({
    kind: 'presses',
    record: props.press,
    schema: pressSchema as never,
    isNew: props.isNew ?? false,
    taken: props.taken,
    onClose: props.onClose,
  });
  const { draft, set, complaint } = form;
  const [width, depth] = faceNames[draft.kind];
  return (
    <RecordForm newName="New press" isNew={props.isNew ?? false} form={form} onClose={props.onClose}>
      {!props.isNew && (
        <p className={styles.onward}>
          <Link to="/press/platen/$pressId" params={{ pressId: props.press.id }}>
            Is it as hot as it says?
          </Link>
          <Link to="/press/force" search={{ press: props.press.id }}>
            What does it push with?
          </Link>
        </p>
      )}
      <div className={styles.fields}>
        <WordsField
          label="Name"
          value={draft.name}
          error={complaint('name')}
          onChange={(name) => set({ name })}
          required
        />
        <Select
          size="md"
          label="Kind"
          data={Object.entries(pressKindNames).map(([value, label]) => ({ value, label }))}
          value={draft.kind}
          allowDeselect={false}
          onChange={(kind) => kind && set({ kind: kind as Press['kind'] })}
        />
      </div>
      <div className={styles.fields}>
        <LengthField
          label={width}
          valueMm={draft.platenWidthMm}
          onChange={(platenWidthMm) => set({ platenWidthMm })}
          error={complaint('platenWidthMm')}
        />
        <LengthField
          label={depth}
          valueMm={draft.platenDepthMm}
          onChange={(platenDepthMm) => set({ platenDepthMm })}
          error={complaint('platenDepthMm')}
        />
        <FigureField
          label="Power"
          unit="W"
          unitName="watts"
          description="From its plate; empty when not known"
          value={draft.watts}
          onChange={(watts) => set({ watts })}
          error={complaint('watts')}
        />
        {draft.kind === 'flat' && (
          <Switch
            size="md"
            label="Heated from below too"
            checked={draft.heatedFrom === 'both'}
            onChange={(event) => set({ heatedFrom: event.currentTarget.checked ? 'both' : 'above' })}
            className={styles.inRow}
          />
        )}
      </div>
      {draft.kind !== 'oven' && (
        <DriveFields drive={draft.drive} onChange={(drive) => set({ drive })} complaint={complaint} />
      )}
    </RecordForm>
  );
}
