import type { SheetCheck } from './types.js';

const words = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** Where a person stands, in one or two short sentences. Notes are good to know and do not count. */
export function standingSentence(checks: readonly Pick<SheetCheck, 'level'>[]): string {
  const stops = checks.filter((check) => check.level === 'stop').length;
  const looks = checks.filter((check) => check.level === 'look').length;
  const toLookAt = looks === 0 ? '' : ` ${sayCount(looks, 'thing')} to look at.`;
  if (stops > 0) {
    const verb = stops === 1 ? 'stands' : 'stand';
    return `Not ready: ${sayCount(stops, 'thing').toLowerCase()} ${verb} in the way.${toLookAt.replace(' to look', ' more to look')}`;
  }
  return `Ready to print.${toLookAt}`;
}

function sayCount(count: number, noun: string): string {
  const word = words[count] ?? String(count);
  return `${word.charAt(0).toUpperCase()}${word.slice(1)} ${noun}${count === 1 ? '' : 's'}`;
}
