import { NumberInput, Select, Switch, Textarea, TextInput } from '@mantine/core';
import { type Blank, blankSchema } from '#contract';
import { LengthField } from '../frame/index.js';
import { materialNames } from '../words/index.js';
import { FormEnds } from './form-ends.js';
import { RecipeFields } from './recipe-fields.js';
import styles from './setups.module.css';
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
    <form
      className={styles.form}
      aria-label={props.isNew ? 'New blank' : draft.name}
      onSubmit={(event) => {
        event.preventDefault();
        form.keep();
      }}
    >
      <div className={styles.fields}>
        <TextInput
          size="md"
          label="Name"
          value={draft.name}
          error={complaint('name')}
          onChange={(e) => set({ name: e.currentTarget.value })}
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
        <TextInput
          size="md"
          label="On which face"
          value={draft.coating.side}
          error={complaint('coating.side')}
          onChange={(e) => set({ coating: { ...draft.coating, side: e.currentTarget.value } })}
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
      <Textarea
        size="md"
        label="Note"
        autosize
        minRows={1}
        value={draft.note}
        error={complaint('note')}
        onChange={(e) => set({ note: e.currentTarget.value })}
      />
      <FormEnds
        isNew={props.isNew ?? false}
        complained={form.complained}
        busy={form.saving.isPending}
        error={form.saving.error ?? form.removing.error}
        onKeep={form.keep}
        onClose={props.onClose}
        onRemove={form.remove}
      />
    </form>
  );
}

type Shape = Blank['shape'];

function ShapeFields({
  shape,
  onChange,
  complaint,
}: {
  readonly shape: Shape;
  onChange(shape: Shape): void;
  complaint(path: string): string | undefined;
}) {
  const width = shape.kind === 'cylinder' ? Math.round(Math.PI * shape.diameterMm) : shape.widthMm;
  const choose = (kind: string | null) => {
    if (kind === 'rectangle') onChange({ kind, widthMm: width, heightMm: shape.heightMm, cornerRadiusMm: 0 });
    if (kind === 'ellipse') onChange({ kind, widthMm: width, heightMm: shape.heightMm });
    if (kind === 'cylinder')
      onChange({ kind, diameterMm: 82, heightMm: shape.heightMm, gapMm: 20, handle: true });
  };
  return (
    <div className={styles.fields}>
      <Select
        size="md"
        label="Shape"
        data={[
          { value: 'rectangle', label: 'Flat, straight edges' },
          { value: 'ellipse', label: 'Flat, round or oval' },
          { value: 'cylinder', label: 'Straight mug or tumbler' },
        ]}
        value={shape.kind}
        allowDeselect={false}
        onChange={choose}
      />
      {shape.kind === 'cylinder' ? (
        <>
          <LengthField
            label="Diameter"
            valueMm={shape.diameterMm}
            onChange={(diameterMm) => onChange({ ...shape, diameterMm })}
            error={complaint('shape.diameterMm')}
          />
          <LengthField
            label="Printed height"
            valueMm={shape.heightMm}
            onChange={(heightMm) => onChange({ ...shape, heightMm })}
            error={complaint('shape.heightMm')}
          />
          <LengthField
            label="Left free round the back"
            valueMm={shape.gapMm}
            onChange={(gapMm) => onChange({ ...shape, gapMm })}
            error={complaint('shape.gapMm')}
          />
          <Select
            size="md"
            label="Handle"
            data={[
              { value: 'yes', label: 'With a handle' },
              { value: 'no', label: 'Without' },
            ]}
            value={shape.handle ? 'yes' : 'no'}
            allowDeselect={false}
            onChange={(value) => onChange({ ...shape, handle: value === 'yes' })}
          />
        </>
      ) : (
        <>
          <LengthField
            label="Width"
            valueMm={shape.widthMm}
            onChange={(widthMm) => onChange({ ...shape, widthMm })}
            error={complaint('shape.widthMm')}
          />
          <LengthField
            label="Height"
            valueMm={shape.heightMm}
            onChange={(heightMm) => onChange({ ...shape, heightMm })}
            error={complaint('shape.heightMm')}
          />
          {shape.kind === 'rectangle' && (
            <LengthField
              label="Corner radius"
              valueMm={shape.cornerRadiusMm}
              onChange={(cornerRadiusMm) => onChange({ ...shape, cornerRadiusMm })}
              error={complaint('shape.cornerRadiusMm')}
            />
          )}
        </>
      )}
    </div>
  );
}
