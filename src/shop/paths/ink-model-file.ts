import { type InkModelData, readInkModelData } from '#craft/inkmodel';
import { Problem } from '#craft/problem';

/** A model as it is kept and given away: JSON, a number as it is. */
export function inkModelJson(data: InkModelData): string {
  return `${JSON.stringify(data)}\n`;
}

/** Errors: chart.unusable for anything that is not a whole ink model. */
export function inkModelOf(bytes: Uint8Array): InkModelData {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder().decode(bytes));
  } catch (cause) {
    throw new Problem('chart.unusable', 'The file is not an ink model.', {
      remedy: 'Give the JSON file that the model was written to.',
      cause,
    });
  }
  return readInkModelData(value);
}
