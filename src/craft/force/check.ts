import { Problem } from '#craft/problem';

export function within(what: string, value: number, low: number, high: number, unit: string): void {
  if (Number.isFinite(value) && value >= low && value <= high) return;
  refuse(
    `${what} is ${value}; it must be ${low} to ${high}${unit === '' ? '' : ` ${unit}`}.`,
    'Correct the value.',
  );
}

export function refuse(message: string, remedy: string): never {
  throw new Problem('press.invalid', message, { remedy });
}
