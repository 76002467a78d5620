/** Errors of one colour, mean and 95 %, ΔE00. */
export interface ErrorFigures {
  readonly meanDeltaE00: number;
  readonly p95DeltaE00: number;
}

/** What an expected error rests on, firmest first. */
export const groundsForErrors = ['measured', 'calibration', 'published', 'rule-of-thumb'] as const;
export type ErrorGrounds = (typeof groundsForErrors)[number];

export interface JoinedError extends ErrorFigures {
  readonly restsOn: ErrorGrounds;
}

/**
 * The model's doubt and the readers' error have nothing to do with each other, so that their squares add up (root sum of
 * squares, JCGM 100:2008, 5.1.2). More patches lessen the one, never the other. The result rests on the shakier of both.
 */
export function joinErrors(model: ErrorFigures, reading: JoinedError | null): JoinedError {
  if (reading === null) return { ...figures(model), restsOn: 'measured' };
  return {
    meanDeltaE00: Math.hypot(model.meanDeltaE00, reading.meanDeltaE00),
    p95DeltaE00: Math.hypot(model.p95DeltaE00, reading.p95DeltaE00),
    restsOn: reading.restsOn,
  };
}

/**
 * Several readings behind one path, each with so many patches: quadratic mean by patches (a colour is told mostly by the
 * patches next to it, whichever reading they come from); null when none has an error of its own.
 */
export function poolErrors(
  readings: readonly { readonly patches: number; readonly error: JoinedError | null }[],
): JoinedError | null {
  const all = readings.reduce((sum, one) => sum + one.patches, 0);
  if (all === 0 || readings.every(({ error }) => error === null)) return null;
  const mean = (of: (error: JoinedError) => number): number =>
    Math.sqrt(
      readings.reduce(
        (sum, { patches, error }) => sum + (error === null ? 0 : (patches / all) * of(error) ** 2),
        0,
      ),
    );
  return {
    meanDeltaE00: mean((error) => error.meanDeltaE00),
    p95DeltaE00: mean((error) => error.p95DeltaE00),
    restsOn: shakiest(readings.map(({ error }) => error?.restsOn ?? 'measured')),
  };
}

const shakiest = (grounds: readonly ErrorGrounds[]): ErrorGrounds =>
  groundsForErrors[Math.max(...grounds.map((one) => groundsForErrors.indexOf(one)))]!;

const figures = ({ meanDeltaE00, p95DeltaE00 }: ErrorFigures): ErrorFigures => ({
  meanDeltaE00,
  p95DeltaE00,
});
