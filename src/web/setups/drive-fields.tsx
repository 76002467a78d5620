import { Button, Select } from '@mantine/core';
import type { Press } from '#contract';
import { fromNewtons, toNewtons } from '#craft/force';
import { FigureField } from '../frame/index.js';
import styles from './setups.module.css';

type Drive = NonNullable<Press['drive']>;

/** Where each kind of drive starts, to be changed: usual sizes of small presses, from memory. */
const starts: Record<Drive['kind'], Drive> = {
  'air-cylinder': { kind: 'air-cylinder', boreMm: 63, cylinders: 1 },
  spring: { kind: 'spring', newtonsPerMm: 100, mmPerTurn: 2, touchesAtTurns: 0 },
  weighed: {
    kind: 'weighed',
    points: [
      { setting: 1, newtons: 500 },
      { setting: 2, newtons: 1000 },
    ],
  },
};

/** How the press makes its force, when that is known: then settings can be told in pressure on the blank. */
export function DriveFields({
  drive,
  onChange,
  complaint,
}: {
  readonly drive: Press['drive'];
  onChange(drive: Press['drive']): void;
  complaint(path: string): string | undefined;
}) {
  return (
    <fieldset className={styles.part}>
      <legend>How it pushes</legend>
      <div className={styles.fields}>
        <Select
          size="md"
          label="Made by"
          data={[
            { value: '', label: 'Not known' },
            { value: 'air-cylinder', label: 'An air cylinder' },
            { value: 'spring', label: 'A lever and a spring' },
            { value: 'weighed', label: 'I weighed it on a scale' },
          ]}
          value={drive?.kind ?? ''}
          allowDeselect={false}
          onChange={(kind) => onChange(kind ? starts[kind as Drive['kind']] : null)}
        />
        {drive?.kind === 'air-cylinder' && <AirFields {...{ drive, onChange, complaint }} />}
        {drive?.kind === 'spring' && <SpringFields {...{ drive, onChange, complaint }} />}
      </div>
      {drive?.kind === 'weighed' && <WeighedFields {...{ drive, onChange, complaint }} />}
    </fieldset>
  );
}

interface FieldsOf<K extends Drive['kind']> {
  readonly drive: Extract<Drive, { kind: K }>;
  onChange(drive: Drive): void;
  complaint(path: string): string | undefined;
}

function AirFields({ drive, onChange, complaint }: FieldsOf<'air-cylinder'>) {
  return (
    <>
      <FigureField
        label="Bore of the cylinder"
        unit="mm"
        decimals={1}
        value={drive.boreMm}
        onChange={(boreMm) => boreMm !== null && onChange({ ...drive, boreMm })}
        error={complaint('drive.boreMm')}
      />
      <FigureField
        label="How many cylinders"
        value={drive.cylinders ?? 1}
        onChange={(cylinders) => cylinders !== null && onChange({ ...drive, cylinders })}
        error={complaint('drive.cylinders')}
      />
      <FigureField
        label="Rod where the air pushes"
        description="0 when it pushes on the full bore"
        unit="mm"
        decimals={1}
        value={drive.rodMm ?? 0}
        onChange={(rodMm) => rodMm !== null && onChange({ ...drive, rodMm })}
        error={complaint('drive.rodMm')}
      />
      <FigureField
        label="Lever"
        description="Force at the platen over force at the rod"
        unit=": 1"
        decimals={2}
        value={drive.leverRatio ?? 1}
        onChange={(leverRatio) => leverRatio !== null && onChange({ ...drive, leverRatio })}
        error={complaint('drive.leverRatio')}
      />
      <FigureField
        label="Lost to friction"
        description="Usually about 10 %"
        unit="%"
        decimals={0}
        value={Math.round((drive.lossShare ?? 0.1) * 100)}
        onChange={(percent) => percent !== null && onChange({ ...drive, lossShare: percent / 100 })}
        error={complaint('drive.lossShare')}
      />
      <FigureField
        label="Platen resting on the blank"
        description="0 when it is held up"
        unit="kg"
        decimals={1}
        value={drive.platenKg ?? 0}
        onChange={(platenKg) => platenKg !== null && onChange({ ...drive, platenKg })}
        error={complaint('drive.platenKg')}
      />
    </>
  );
}

function SpringFields({ drive, onChange, complaint }: FieldsOf<'spring'>) {
  return (
    <>
      <FigureField
        label="Stiffness of the spring"
        unit="N/mm"
        decimals={1}
        value={drive.newtonsPerMm}
        onChange={(newtonsPerMm) => newtonsPerMm !== null && onChange({ ...drive, newtonsPerMm })}
        error={complaint('drive.newtonsPerMm')}
      />
      <FigureField
        label="One turn moves it by"
        unit="mm"
        decimals={2}
        value={drive.mmPerTurn}
        onChange={(mmPerTurn) => mmPerTurn !== null && onChange({ ...drive, mmPerTurn })}
        error={complaint('drive.mmPerTurn')}
      />
      <FigureField
        label="Just touches at"
        unit="turns"
        decimals={2}
        value={drive.touchesAtTurns ?? 0}
        onChange={(touchesAtTurns) => touchesAtTurns !== null && onChange({ ...drive, touchesAtTurns })}
        error={complaint('drive.touchesAtTurns')}
      />
      <FigureField
        label="Lever"
        description="Force at the platen over force at the spring"
        unit=": 1"
        decimals={2}
        value={drive.leverRatio ?? 1}
        onChange={(leverRatio) => leverRatio !== null && onChange({ ...drive, leverRatio })}
        error={complaint('drive.leverRatio')}
      />
    </>
  );
}

function WeighedFields({ drive, onChange, complaint }: FieldsOf<'weighed'>) {
  const { points } = drive;
  const change = (at: number, next: Partial<(typeof points)[number]>) =>
    onChange({ ...drive, points: points.map((point, i) => (i === at ? { ...point, ...next } : point)) });
  const last = points.at(-1);
  return (
    <div className="stack">
      <p className="soft">
        Press <strong>cold</strong> and switched off: a board on a bathroom scale, closed at two settings or
        more. Settings rising, what the scale shows beside each.
      </p>
      {complaint('drive.points') && <p role="alert">{complaint('drive.points')}</p>}
      {points.map((point, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: weighings have no name but their place
        <div key={i} className={styles.weighing}>
          <FigureField
            label={`Setting ${i + 1}`}
            decimals={2}
            value={point.setting}
            onChange={(setting) => setting !== null && change(i, { setting })}
            error={complaint(`drive.points.${i}.setting`)}
          />
          <FigureField
            label={`Scale ${i + 1} shows`}
            unit="kg"
            decimals={1}
            value={Number(fromNewtons(point.newtons, 'kgf').toFixed(1))}
            onChange={(kg) => kg !== null && change(i, { newtons: Number(toNewtons(kg, 'kgf').toFixed(2)) })}
            error={complaint(`drive.points.${i}.newtons`)}
          />
          {points.length > 2 && (
            <button
              type="button"
              className="link-button"
              onClick={() => onChange({ ...drive, points: points.filter((_, at) => at !== i) })}
            >
              Leave out<span className="said-only"> weighing {i + 1}</span>
            </button>
          )}
        </div>
      ))}
      <div>
        <Button
          variant="default"
          disabled={points.length >= 30}
          onClick={() =>
            onChange({
              ...drive,
              points: [...points, { setting: (last?.setting ?? 0) + 1, newtons: (last?.newtons ?? 0) + 500 }],
            })
          }
        >
          Another weighing
        </Button>
      </div>
    </div>
  );
}
