import { TextInput } from '@mantine/core';

/** A line of words of a record, with its complaint. */
export function WordsField(props: {
  readonly label: string;
  readonly value: string;
  onChange(value: string): void;
  readonly error: string | undefined;
  readonly required?: boolean;
}) {
  return (
    <TextInput
      size="md"
      label={props.label}
      value={props.value}
      error={props.error}
      onChange={(event) => props.onChange(event.currentTarget.value)}
      required={props.required ?? false}
    />
  );
}
