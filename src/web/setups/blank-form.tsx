import { NumberInput, Select, Switch } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { type Blank, blankSchema } from '#contract';
import { LengthField, WordsField } from '../frame/index.js';
import { RecipeFields } from '../recipes/recipe-fields.js';
import { materialNames } from '../words/index.js';
import { RecordForm } from './record-form.js';
import styles from './setups.module.css';
import { ShapeFields } from './shape-fields.js';
import { useRecordForm } from './use-record-form.js';

/** Every value of a blank. */
export function BlankForm(props: {
  readonly blank: Blank;
  readonly isNew?: boolean;
  readonly taken: readonly Blank[];
  onClose(): void;
}) {
  const form = useRecordForm<Blank>({
    kind: 'blanks',
    record: props.blank,
    schema: blankSchema as never,
    isNew: props.isNew ?? false,
    taken: props.taken,
    onClose: props.onClose,
  });
  const { draft, set, complaint } = form;
  return (
    <RecordForm newName="New blank" isNew={props.isNew ?? false} form={form} onClose={props.onClose}>
      {!props.isNew && (
        <p className={styles.onward}>
          <Link to="/press/recipes/$blankId" params={{ blankId: props.blank.id }}>
            Its recipe: what it rests on, what to set, earlier ones
          </Link>
        </p>
      )}
      <div className={styles.fields}>
        <WordsField
          label="Name"
          value={draft.name}
          error={complaint('name')}
          onChange={(value) => set({ name: value })}
          required
        />
        <Select
          size="md"
          label="Material"
          data={Object.entries(materialNames).map(([value, label]) => ({ value, label }))}
          value={draft.material}
          allowDeselect={false}
          onChange={(value) =>
            value &&
            set({
              material: value as Blank['material'],
              polyesterPercent: value === 'textile' ? (draft.polyesterPercent ?? 100) : null,
            })
          }
        />
      </div>
      <ShapeFields shape={draft.shape} onChange={(shape) => set({ shape })} complaint={complaint} />
      <div className={styles.fields}>
        <LengthField
          label="Size may differ by ±"
          valueMm={draft.toleranceMm}
          onChange={(toleranceMm) => set({ toleranceMm })}
          minMm={0}
          maxMm={50}
          stepMm={0.5}
          error={complaint('toleranceMm')}
        />
        <LengthField
          label="Bleed"
          description="Printed past the edge"
          valueMm={draft.bleedMm}
          onChange={(bleedMm) => set({ bleedMm })}
          minMm={0}
          maxMm={50}
          stepMm={0.5}
          error={complaint('bleedMm')}
        />
        <LengthField
          label="Safe margin"
          description="Lettering and faces stay inside"
          valueMm={draft.safeMm}
          onChange={(safeMm) => set({ safeMm })}
          minMm={0}
          maxMm={100}
          stepMm={0.5}
          error={complaint('safeMm')}
        />
      </div>
      <div className={styles.fields}>
        <Select
          size="md"
          label="What takes the dye"
          data={[
            { value: 'polymer', label: 'A clear polyester coating' },
            { value: 'fibre', label: 'Its own polyester fibre' },
            { value: 'none', label: 'Nothing: uncoated' },
          ]}
          value={draft.coating.kind}
          allowDeselect={false}
          onChange={(kind) =>
            kind && set({ coating: { ...draft.coating, kind: kind as Blank['coating']['kind'] } })
          }
        />
        <WordsField
          label="On which face"
          value={draft.coating.side}
          error={complaint('coating.side')}
          onChange={(value) => set({ coating: { ...draft.coating, side: value } })}
        />
        {draft.material === 'textile' && (
          <NumberInput
            size="md"
            label="Polyester in the cloth"
            suffix=" %"
            min={0}
            max={100}
            value={draft.polyesterPercent ?? 100}
            error={complaint('polyesterPercent')}
            onChange={(value) => typeof value === 'number' && set({ polyesterPercent: value })}
          />
        )}
        {draft.material !== 'textile' && (
          <Switch
            size="md"
            label="Looked at through its back"
            description="Coated behind, as some glass is: the picture is laid the other way round."
            checked={draft.coating.seenThrough ?? false}
            onChange={(e) => set({ coating: { ...draft.coating, seenThrough: e.currentTarget.checked } })}
          />
        )}
      </div>
      <RecipeFields recipe={draft.recipe} onChange={(recipe) => set({ recipe })} complaint={complaint} />
    </RecordForm>
  );
}
