import { isProblem, Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import { readSheetPicture } from '#shop/vision';

/**
 * The problem to throw when a picture did not show what was asked for: when it shows some other sheet of this program's,
 * that is said instead of 'no marks'. Anything but `scan.no-marks` comes back as it was.
 */
export async function refuseOtherSheet(
  source: string | Uint8Array,
  thrown: unknown,
  parts: {
    readonly nameOf: (sheetId: string) => Promise<string | null>;
    readonly pixelLimit: number;
  },
  wanted: string,
  signal: AbortSignal | undefined,
): Promise<unknown> {
  if (!isProblem(thrown) || thrown.code !== 'scan.no-marks') return thrown;
  const sheetId = await sheetInPicture(source, parts.pixelLimit, signal);
  if (sheetId === null) return thrown;
  const name = await parts.nameOf(sheetId);
  return new Problem(
    'scan.wrong-sheet',
    `The picture shows sheet ${spokenSheetId(sheetId)}${name === null ? '' : `, ${name}`}, not ${wanted}.`,
    { remedy: 'Choose the picture again, or read that sheet where it belongs.' },
  );
}

/** Which sheet a picture shows by its square code; null when none can be read. Errors: image.*, job.cancelled. */
export async function sheetInPicture(
  source: string | Uint8Array,
  pixelLimit: number,
  signal: AbortSignal | undefined,
): Promise<string | null> {
  try {
    return (await readSheetPicture(source, { subject: 'piece', pixelLimit, signal })).sheetId;
  } catch (error) {
    if (isProblem(error) && error.code.startsWith('scan.')) return null;
    throw error;
  }
}
