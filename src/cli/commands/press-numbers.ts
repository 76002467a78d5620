import { Problem } from '#craft/problem';

/** Numbers with commas between them. @param count left out: any number of them */
export function numbersFrom(option: string, text: string, count?: number): number[] {
  const numbers = text.split(',').map((word) => (word.trim() === '' ? Number.NaN : Number(word)));
  if (numbers.every(Number.isFinite) && (count === undefined || numbers.length === count)) return numbers;
  throw new Problem(
    'request.invalid',
    `${option} wants ${count === undefined ? 'numbers' : `${count} numbers`} with commas between them, not “${text}”.`,
    { remedy: `Write it as in: 1,2,3` },
  );
}

/** '35-90' → [35, 90]. */
export function rangeFrom(option: string): (text: string) => [number, number] {
  return (text) => {
    const match = /^\s*([\d.]+)\s*(?:-|–|\.\.)\s*([\d.]+)\s*$/.exec(text);
    const [low, high] = [Number(match?.[1]), Number(match?.[2])];
    if (match && Number.isFinite(low) && Number.isFinite(high)) return [low, high];
    throw new Problem('request.invalid', `${option} wants two numbers with a dash, not “${text}”.`, {
      remedy: `Write it as in: ${option} 35-90`,
    });
  };
}

/** '200,55' or '200,55,1.5': °C, seconds, bar. */
export function stepFrom(
  option: string,
  text: string,
): { platenC: number; dwellSeconds: number; pressureBar?: number } {
  const words = text.split(',');
  if (words.length < 2 || words.length > 3) {
    throw new Problem('request.invalid', `${option} wants °C and seconds, not “${text}”.`, {
      remedy: `Write it as in: ${option} 200,55 — or with the pressure in bar: ${option} 200,55,1.5`,
    });
  }
  const [platenC, dwellSeconds, pressureBar] = numbersFrom(option, text) as [number, number, number?];
  return { platenC, dwellSeconds, ...(pressureBar === undefined ? {} : { pressureBar }) };
}
