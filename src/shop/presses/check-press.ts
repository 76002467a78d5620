import type { Press } from '#contract';
import { forceNewtons } from '#craft/force';

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
