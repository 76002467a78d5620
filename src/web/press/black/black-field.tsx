import { ColorInput, NumberInput, SegmentedControl } from '@mantine/core';
import { useId } from 'react';
import type { BlackAnswer } from '#contract';
import { formatHex, labFromSrgb, srgb8FromLab } from '#craft/colour';
import { BlackSample } from '../ladder/samples.js';
import styles from './black.module.css';

type Triple = [number, number, number];

/** A black as it was seen: by eye, or by numbers. */
export interface SeenBlack {
  readonly by: 'eye' | 'screen' | 'lab';
  readonly eye: 'green' | 'neutral' | 'brown' | null;
  readonly lab: Triple | null;
}

/** By eye, picked from a picture on the screen, or as an instrument reads it. */
export function BlackField({
  seen,
  onChange,
}: {
  readonly seen: SeenBlack;
  onChange(seen: SeenBlack): void;
}) {
  const id = useId();
  return (
    <fieldset className={styles.group}>
      <legend>The black is</legend>
      <SegmentedControl
        size="md"
        fullWidth
        aria-label="How the black was seen"
        value={seen.by}
        onChange={(by) => onChange({ ...seen, by: by as SeenBlack['by'] })}
        data={[
          { value: 'eye', label: 'By eye' },
          { value: 'screen', label: 'From a picture' },
          { value: 'lab', label: 'As Lab' },
        ]}
      />
      {seen.by === 'eye' && (
        <div className={styles.choices}>
          {(['green', 'neutral', 'brown'] as const).map((eye) => (
            <label key={eye}>
              <input
                type="radio"
                name={id}
                value={eye}
                checked={seen.eye === eye}
                onChange={() => onChange({ ...seen, eye })}
              />
              <span>
                <BlackSample black={eye} />
                {eye === 'neutral' ? 'neutral' : `${eye}ish`}
              </span>
            </label>
          ))}
        </div>
      )}
      {seen.by === 'screen' && (
        <ColorInput
          size="md"
          label="Colour in the picture (sRGB)"
          description="From a scan or a photo in even daylight; a phone that brightens blacks misleads"
          placeholder="#2a2724"
          format="hex"
          value={seen.lab ? formatHex(srgb8FromLab(seen.lab)) : ''}
          onChange={(hex) => {
            const bytes = bytesOfHex(hex);
            if (bytes) onChange({ ...seen, lab: rounded(labFromSrgb(bytes)) });
          }}
        />
      )}
      {seen.by === 'lab' && (
        <div className={styles.lab}>
          {(['L*', 'a*', 'b*'] as const).map((name, i) => (
            <NumberInput
              key={name}
              size="md"
              label={name}
              hideControls
              decimalScale={1}
              min={i === 0 ? 0 : -100}
              max={100}
              value={seen.lab?.[i] ?? ''}
              placeholder={['22', '0', '0'][i] ?? ''}
              onChange={(value) => {
                if (typeof value !== 'number' || value === seen.lab?.[i]) return;
                const lab: Triple = [...(seen.lab ?? [22, 0, 0])];
                lab[i] = value;
                onChange({ ...seen, lab });
              }}
            />
          ))}
          <p className={styles.aside}>D50, 2°, as an instrument or a reading of this shop gives it.</p>
        </div>
      )}
    </fieldset>
  );
}

const rounded = (lab: readonly number[]): Triple => [
  Math.round((lab[0] ?? 0) * 10) / 10,
  Math.round((lab[1] ?? 0) * 10) / 10,
  Math.round((lab[2] ?? 0) * 10) / 10,
];
function bytesOfHex(hex: string): Triple | null {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(hex.trim());
  return found && ([1, 2, 3].map((i) => Number.parseInt(found[i] ?? '0', 16) / 255) as unknown as Triple);
}

export const verdictHead: Record<BlackAnswer['verdict'], string> = {
  under: 'Pressed too little.',
  right: 'Pressed right.',
  over: 'Pressed too much.',
};
