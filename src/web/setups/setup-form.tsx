import { NumberInput, Radio, Select, Switch, Textarea } from '@mantine/core';
import { type PrintSetup, printSetupSchema } from '#contract';
import { useColourPaths } from '../api/index.js';
import { LengthField, WordsField } from '../frame/index.js';
import { toLines, trustText } from '../words/index.js';
import { RecordForm } from './record-form.js';
import styles from './setups.module.css';
import { useRecordForm } from './use-record-form.js';

/** Every value of a print setup. */
export function SetupForm(props: {
  readonly setup: PrintSetup;
  readonly isNew?: boolean;
  readonly taken: readonly PrintSetup[];
  onClose(): void;
}) {
  const paths = useColourPaths();
  const form = useRecordForm<PrintSetup>({
    kind: 'setups',
    record: props.setup,
    schema: printSetupSchema as never,
    isNew: props.isNew ?? false,
    taken: props.taken,
    onClose: props.onClose,
  });
  const { draft, set, complaint } = form;
  const setPaper = (change: Partial<PrintSetup['paper']>) => set({ paper: { ...draft.paper, ...change } });
  return (
    <RecordForm newName="New print setup" isNew={props.isNew ?? false} form={form} onClose={props.onClose}>
      <div className={styles.fields}>
        <WordsField
          label="Name"
          value={draft.name}
          error={complaint('name')}
          onChange={(value) => set({ name: value })}
          required
        />
        <WordsField
          label="Printer"
          value={draft.printer}
          error={complaint('printer')}
          onChange={(value) => set({ printer: value })}
          required
        />
        <WordsField
          label="Ink"
          value={draft.ink}
          error={complaint('ink')}
          onChange={(value) => set({ ink: value })}
          required
        />
      </div>
      <div className={styles.fields}>
        <WordsField
          label="Paper"
          value={draft.paper.name}
          error={complaint('paper.name')}
          onChange={(value) => setPaper({ name: value })}
        />
        <LengthField
          label="Paper width"
          valueMm={draft.paper.widthMm}
          onChange={(widthMm) => setPaper({ widthMm })}
          error={complaint('paper.widthMm')}
        />
        <LengthField
          label={draft.paper.roll ? 'Longest sheet off the roll' : 'Paper height'}
          valueMm={draft.paper.heightMm}
          onChange={(heightMm) => setPaper({ heightMm })}
          error={complaint('paper.heightMm')}
        />
        <LengthField
          label="Unprintable edge"
          valueMm={draft.paper.marginMm}
          onChange={(marginMm) => setPaper({ marginMm })}
          stepMm={0.5}
          error={complaint('paper.marginMm')}
        />
        <WordsField
          label="Printed on"
          value={draft.paper.printSide}
          error={complaint('paper.printSide')}
          onChange={(value) => setPaper({ printSide: value })}
        />
        <Switch
          size="md"
          label="It comes off a roll"
          checked={draft.paper.roll ?? false}
          onChange={(e) => setPaper({ roll: e.currentTarget.checked })}
          className={styles.inRow}
        />
      </div>
      <Radio.Group
        size="md"
        label="Who mirrors?"
        value={draft.mirroredBy}
        onChange={(value) => set({ mirroredBy: value as PrintSetup['mirroredBy'] })}
        description="In one place only."
      >
        <div className={styles.radios}>
          <Radio size="md" value="sheet" label="The sheet: the driver must not" />
          <Radio size="md" value="driver" label="The printer driver: the sheet is not mirrored" />
        </div>
      </Radio.Group>
      <Textarea
        size="md"
        label="Settings in the driver"
        description="One a line. They are part of the route: colour holds only while they stay the same."
        autosize
        minRows={3}
        defaultValue={draft.driverSettings.join('\n')}
        error={complaint('driverSettings')}
        onChange={(e) => set({ driverSettings: toLines(e.currentTarget.value) })}
      />
      <div className={styles.fields}>
        <NumberInput
          size="md"
          label="Resolution of the sheet"
          suffix=" pixels per inch"
          allowDecimal={false}
          value={draft.ppi}
          error={complaint('ppi')}
          onChange={(value) => typeof value === 'number' && set({ ppi: value })}
        />
        <Select
          size="md"
          label="Colour path"
          data={[
            { value: '', label: 'None: colour is not calibrated' },
            ...(paths.data ?? []).map((path) => ({
              value: path.id,
              label: `${path.name} · ${trustText(path)}`,
            })),
          ]}
          value={draft.colourPathId ?? ''}
          allowDeselect={false}
          onChange={(value) => set({ colourPathId: value || null })}
        />
        <Select
          size="md"
          label="Rendering intent"
          data={[
            { value: 'perceptual', label: 'Perceptual' },
            { value: 'relative', label: 'Relative' },
            { value: 'saturation', label: 'Saturation' },
          ]}
          value={draft.intent}
          allowDeselect={false}
          onChange={(value) => value && set({ intent: value as PrintSetup['intent'] })}
        />
        <Switch
          size="md"
          label="Black point compensation"
          checked={draft.blackPointCompensation}
          onChange={(e) => set({ blackPointCompensation: e.currentTarget.checked })}
          className={styles.inRow}
        />
      </div>
    </RecordForm>
  );
}
