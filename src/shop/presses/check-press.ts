import type { PlatenCheck, Press } from '#contract';
import { forceNewtons } from '#craft/force';
import { Problem } from '#craft/problem';

/** What no drive can be (a rod thicker than its bore, weighings that fall) is refused here, not first when a force is asked for. Errors: press.invalid. */
export function assertPressMakesSense({ drive }: Press): void {
  if (drive === null) return;
  if (drive.kind === 'weighed') {
    forceNewtons(drive, drive.points[0]!.setting);
    return;
  }
  const { kind } = drive;
  forceNewtons(drive, kind === 'air-cylinder' ? 1 : (drive.touchesAtTurns ?? 0));
}

type Readings = Pick<PlatenCheck, 'columns' | 'rows' | 'celsius'>;

/** As many temperatures as the grid has places, at least one of them taken. Errors: press.invalid. */
export function assertReadingsMakeSense({ columns, rows, celsius }: Readings): void {
  if (celsius.length !== columns * rows)
    refuse(
      `A grid of ${columns} × ${rows} has ${columns * rows} places, not ${celsius.length}.`,
      'Give one temperature a place, row by row from the back, and leave empty where none was taken.',
      'celsius',
    );
  if (celsius.every((one) => one === null))
    refuse('No temperature was taken.', 'Type in at least one, better five or nine.', 'celsius');
}

function refuse(message: string, remedy: string, where: string): never {
  throw new Problem('press.invalid', message, { remedy, where });
}
