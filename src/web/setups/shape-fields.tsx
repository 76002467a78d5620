import { Select } from '@mantine/core';
import type { Blank } from '#contract';
import { LengthField } from '../frame/index.js';
import styles from './setups.module.css';

type Shape = Blank['shape'];

/** The shape of a blank and its sizes. */
export function ShapeFields({
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
