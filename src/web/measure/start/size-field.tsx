import { Radio } from '@mantine/core';
import { LengthField, usePreferences } from '../../frame/index.js';
import { sizeText } from '../../words/index.js';
import { flatFace, type SheetSize, type StartChoice } from './order.js';
import styles from './start.module.css';

/** As large as the paper, as the piece, or anything else. */
export function SizeField({
  choice,
  onChange,
}: {
  readonly choice: StartChoice;
  onChange(change: Partial<Pick<StartChoice, 'size' | 'ownMm'>>): void;
}) {
  const { lengthUnit } = usePreferences();
  const { setup, size, ownMm } = choice;
  const face = flatFace(choice.blank);
  return (
    <Radio.Group
      size="md"
      label="How large"
      value={size}
      onChange={(value) => onChange({ size: value as SheetSize })}
    >
      <div className={styles.radios}>
        <Radio
          size="md"
          value="paper"
          label="The whole paper"
          description={
            setup
              ? setup.paper.roll
                ? 'across the roll'
                : sizeText(setup.paper.widthMm, setup.paper.heightMm, lengthUnit)
              : undefined
          }
        />
        {face && (
          <Radio
            size="md"
            value="face"
            label="To fit the piece"
            description={sizeText(face.widthMm, face.heightMm, lengthUnit)}
          />
        )}
        <Radio size="md" value="own" label="Another size" />
      </div>
      {size === 'own' && (
        <div className={styles.ownSize}>
          <LengthField
            label="Sheet width"
            valueMm={ownMm.widthMm}
            minMm={40}
            maxMm={6000}
            onChange={(widthMm) => onChange({ ownMm: { ...ownMm, widthMm } })}
          />
          <LengthField
            label="Sheet height"
            valueMm={ownMm.heightMm}
            minMm={40}
            maxMm={6000}
            onChange={(heightMm) => onChange({ ownMm: { ...ownMm, heightMm } })}
          />
        </div>
      )}
    </Radio.Group>
  );
}
