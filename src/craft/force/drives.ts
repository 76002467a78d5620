import { refuse, within } from './check.js';
import { pascalPerBar, standardGravityMPerS2 } from './units.js';

/** How a press makes its force. */
export type PressDrive =
  | {
      readonly kind: 'air-cylinder';
      readonly boreMm: number;
      /** Of a rod on the side where the air pushes; 0 when it pushes on the full bore. */
      readonly rodMm?: number | undefined;
      /** Cylinders side by side. Default 1. */
      readonly cylinders?: number | undefined;
      /** Force at the platen over force at the rod: above 1 where a lever multiplies. Default 1. */
      readonly leverRatio?: number | undefined;
      /** Lost to friction and springs, 0..1. Default 0.1 (common practice, from memory). */
      readonly lossShare?: number | undefined;
      /** The platen's own weight, when it rests on the blank. Default 0. */
      readonly platenKg?: number | undefined;
    }
  | {
      /** A screw presses a spring, a lever multiplies it. */
      readonly kind: 'spring';
      readonly newtonsPerMm: number;
      readonly mmPerTurn: number;
      /** Turns at which the platen just touches. Default 0. */
      readonly touchesAtTurns?: number | undefined;
      readonly leverRatio?: number | undefined;
    }
  | {
      /** Any press whose force was weighed at some settings, on a bathroom scale under a board, cold. */
      readonly kind: 'weighed';
      readonly points: readonly { readonly setting: number; readonly newtons: number }[];
    };

/** What `setting` means: gauge pressure in bar (over the air's) for cylinders, turns for springs, its own for weighed ones. */
export function forceNewtons(drive: PressDrive, setting: number): number {
  checkDrive(drive);
  if (drive.kind === 'air-cylinder') {
    within('The line pressure', setting, 0, 20, 'bar');
    return pistonM2(drive) * setting * pascalPerBar * gain(drive) + deadWeightN(drive);
  }
  if (drive.kind === 'spring') {
    within('The number of turns', setting, -100, 100, '');
    const turns = Math.max(0, setting - (drive.touchesAtTurns ?? 0));
    return turns * drive.mmPerTurn * drive.newtonsPerMm * (drive.leverRatio ?? 1);
  }
  const points = drive.points;
  within('The setting', setting, points[0]!.setting, points.at(-1)!.setting, 'as weighed');
  return along(
    points.map((p) => p.setting),
    points.map((p) => p.newtons),
    setting,
  );
}

/** The setting for a force. @throws Problem `press.invalid` when the press cannot give it, or not so little */
export function settingFor(drive: PressDrive, newtons: number): number {
  checkDrive(drive);
  within('The force', newtons, 0, 1e6, 'N');
  if (drive.kind === 'air-cylinder') {
    const bar = (newtons - deadWeightN(drive)) / (pistonM2(drive) * gain(drive) * pascalPerBar);
    if (bar < 0)
      refuse(
        'The platen alone weighs more than this force.',
        'Choose more pressure, or a press whose platen is held.',
      );
    within('The line pressure for this force', bar, 0, 20, 'bar');
    return bar;
  }
  if (drive.kind === 'spring')
    return (
      (drive.touchesAtTurns ?? 0) + newtons / (drive.mmPerTurn * drive.newtonsPerMm * (drive.leverRatio ?? 1))
    );
  const points = drive.points;
  within('The force', newtons, points[0]!.newtons, points.at(-1)!.newtons, 'N, as weighed');
  return along(
    points.map((p) => p.newtons),
    points.map((p) => p.setting),
    newtons,
  );
}

type AirCylinder = Extract<PressDrive, { kind: 'air-cylinder' }>;

function pistonM2({ boreMm, rodMm, cylinders }: AirCylinder): number {
  const square = (boreMm / 1000) ** 2 - ((rodMm ?? 0) / 1000) ** 2;
  return (Math.PI / 4) * square * (cylinders ?? 1);
}

const gain = ({ leverRatio, lossShare }: AirCylinder): number => (leverRatio ?? 1) * (1 - (lossShare ?? 0.1));

/** Weight at standard gravity. */
const deadWeightN = ({ platenKg }: AirCylinder): number => (platenKg ?? 0) * standardGravityMPerS2;

function checkDrive(drive: PressDrive): void {
  if (drive.kind === 'air-cylinder') {
    within('The bore', drive.boreMm, 5, 1000, 'mm');
    within('The rod', drive.rodMm ?? 0, 0, drive.boreMm * 0.95, 'mm');
    within('The number of cylinders', drive.cylinders ?? 1, 1, 16, '');
    within('The lever ratio', drive.leverRatio ?? 1, 0.01, 100, '');
    within('The share lost', drive.lossShare ?? 0.1, 0, 0.9, '');
    within('The weight of the platen', drive.platenKg ?? 0, 0, 500, 'kg');
  } else if (drive.kind === 'spring') {
    within('The stiffness of the spring', drive.newtonsPerMm, 0.01, 1e5, 'N/mm');
    within('The way of a turn', drive.mmPerTurn, 0.01, 100, 'mm');
    within('The lever ratio', drive.leverRatio ?? 1, 0.01, 100, '');
    within('The turns at which it touches', drive.touchesAtTurns ?? 0, -100, 100, '');
  } else {
    if (drive.points.length < 2)
      refuse('One weighing tells no more than one setting.', 'Weigh at two settings or more.');
    drive.points.forEach((point, i) => {
      const before = drive.points[i - 1];
      if (!Number.isFinite(point.setting) || !(point.newtons >= 0 && point.newtons < 1e6))
        refuse('A weighing is not a number that can be.', 'Look over the weighings.');
      if (before !== undefined && !(point.setting > before.setting && point.newtons > before.newtons))
        refuse(
          'The weighings do not rise with the setting.',
          'Put them in order of the setting; weigh again where more setting gave less force.',
        );
    });
  }
}

function along(from: readonly number[], to: readonly number[], at: number): number {
  let i = 1;
  while (i < from.length - 1 && at > from[i]!) i += 1;
  const share = (at - from[i - 1]!) / (from[i]! - from[i - 1]!);
  return to[i - 1]! + share * (to[i]! - to[i - 1]!);
}
