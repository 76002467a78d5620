import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';

/** @param sheetIds as far as they could be read; one alone when it is the same sheet twice */
export function severalSheets(sheetIds: readonly string[]): Problem {
  const named = sheetIds.map((id) => spokenSheetId(id));
  const which =
    named.length > 1
      ? `There are marks of more than one sheet in the picture: ${named.slice(0, -1).join(', ')} and ${named.at(-1)}.`
      : named.length === 1
        ? `There are marks of more than one sheet in the picture: sheet ${named[0]} more than once.`
        : 'There are marks of more than one sheet in the picture.';
  return new Problem('scan.no-marks', which, {
    remedy: 'Scan one sheet at a time, or cut the picture so that it shows only one.',
  });
}
