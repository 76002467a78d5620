import { Radio } from '@mantine/core';
import type { SheetOutputOptions } from '#contract';
import styles from './test-sheet.module.css';

type Format = SheetOutputOptions['format'];

/** What kind of file a test sheet is made as. */
export function FormatField(props: {
  readonly label: string;
  readonly value: Format;
  onChange(format: Format): void;
}) {
  return (
    <Radio.Group
      size="md"
      label={props.label}
      value={props.value}
      onChange={(value) => props.onChange(value as Format)}
    >
      <div className={styles.radios}>
        <Radio size="md" value="pdf" label="PDF, the surest to size" />
        <Radio size="md" value="png" label="PNG" />
        <Radio size="md" value="tiff" label="TIFF" />
      </div>
    </Radio.Group>
  );
}
