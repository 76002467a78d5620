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
  if (stops === 0) {
    return looks === 0 ? 'Ready to print.' : `Ready to print. ${capital(sayCount(looks))} to look at.`;
  }
  const inTheWay = `Not ready: ${sayCount(stops)} ${stops === 1 ? 'stands' : 'stand'} in the way.`;
  return looks === 0 ? inTheWay : `${inTheWay} ${capital(sayCount(looks, 'more '))} to look at.`;
}

function sayCount(count: number, kind = ''): string {
  return `${words[count] ?? count} ${kind}thing${count === 1 ? '' : 's'}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
