import { Select } from '@mantine/core';
import { useReaders } from '../api/index.js';

/** Which of the shop's readers a picture comes from, or none of them. */
export function ScannerField(props: {
  readonly value: string | null;
  onChange(readerId: string | null): void;
}) {
  const readers = useReaders();
  return (
    <Select
      size="md"
      label="Which scanner"
      placeholder="None of mine"
      clearable
      clearButtonProps={{ 'aria-label': 'None of mine' }}
      data={(readers.data ?? []).map((one) => ({
        value: one.id,
        label: one.calibration ? `${one.name}, calibrated` : `${one.name}, not calibrated`,
      }))}
      value={props.value}
      onChange={props.onChange}
    />
  );
}
