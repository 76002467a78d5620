import { Problem } from '#craft/problem';

/** All that is wrong with a file of measurements is said the same way. */
export function broken(message: string, remedy: string, where?: string): never {
  throw new Problem('measurements.broken', message, where === undefined ? { remedy } : { remedy, where });
}

/** What is shown of a value out of a file: short, and without line breaks or control characters. */
export function shown(text: string): string {
  const plain = text.replace(/\p{Cc}/gu, ' ').trim();
  return plain.length > 40 ? `${plain.slice(0, 39)}…` : plain;
}
