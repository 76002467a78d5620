import { type MeasurementTable, type ReadMeasurementsOptions, readMeasurements } from '#craft/cgats';
import { Problem } from '#craft/problem';

/** A chart with spectra of 2500 patches has a few MB. */
export const maxMeasurementBytes = 64_000_000;

/**
 * The table in a file of measurements, whatever its text encoding.
 * Errors: measurements.broken.
 */
export function measurementsOf(bytes: Uint8Array, options: ReadMeasurementsOptions = {}): MeasurementTable {
  if (bytes.byteLength > maxMeasurementBytes) {
    throw new Problem('measurements.broken', 'The file is larger than any table of measurements.', {
      remedy: 'Choose the file the instrument wrote.',
    });
  }
  return readMeasurements(textOf(bytes), options);
}

/** UTF-16 by its byte order mark, else UTF-8, else the old Windows code page that spreadsheets still write. */
function textOf(bytes: Uint8Array): string {
  const mark = (bytes[0] ?? 0) * 256 + (bytes[1] ?? 0);
  if (mark === 0xfffe) return new TextDecoder('utf-16le').decode(bytes);
  if (mark === 0xfeff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
