import { Problem } from '#craft/problem';
import type { ReaderMapData } from '#craft/reader';

/** A map as it is kept: JSON, a number as it is. */
export const writeMapFile = (data: ReaderMapData): Uint8Array =>
  new TextEncoder().encode(`${JSON.stringify(data)}\n`);

/** Whether it is whole is `makeReaderMap`'s to say. Errors: chart.unusable for anything but JSON. */
export function readMapFile(bytes: Uint8Array): ReaderMapData {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as ReaderMapData;
  } catch (cause) {
    throw new Problem('chart.unusable', 'The kept calibration of the reader is damaged.', {
      remedy: 'Calibrate the reader again.',
      cause,
    });
  }
}
