import { type LengthUnit, lengthText, type TemperatureUnit, temperatureText } from './figures.js';

/** As much of a checker's issue as its words need. */
interface Issue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly minimum?: unknown;
  readonly maximum?: unknown;
  readonly origin?: unknown;
}

/**
 * What is allowed in a field that holds something else, in plain words and the person's units: the checker's own words
 * are for programmers. The unit is told from the field's name.
 */
export function issueWords(
  issue: Issue,
  units: { readonly lengthUnit: LengthUnit; readonly temperatureUnit: TemperatureUnit },
): string {
  const bound = typeof issue.minimum === 'number' ? issue.minimum : issue.maximum;
  const name = String(issue.path.findLast((part) => typeof part === 'string') ?? '');
  const isLeast = issue.code === 'too_small';
  if ((isLeast || issue.code === 'too_big') && typeof bound === 'number') {
    if (issue.origin === 'string')
      return isLeast ? 'Write something here.' : `Keep it shorter than ${bound} letters.`;
    if (issue.origin === 'array') return `${isLeast ? 'At least' : 'At most'} ${bound} of them.`;
    return `${isLeast ? 'At least' : 'At most'} ${withUnit(bound, name, units)}.`;
  }
  if (issue.code === 'invalid_type') return 'Fill this in.';
  return issue.message;
}

function withUnit(
  value: number,
  name: string,
  units: { readonly lengthUnit: LengthUnit; readonly temperatureUnit: TemperatureUnit },
): string {
  if (/Mm$/.test(name)) return lengthText(value, units.lengthUnit);
  if (/(?:platen|set|start)C$/.test(name)) return temperatureText(value, units.temperatureUnit);
  if (/Seconds$/.test(name)) return `${value}\u00a0s`;
  if (/Kg$/.test(name)) return `${value}\u00a0kg`;
  if (name === 'watts') return `${value}\u00a0W`;
  if (/Share$/.test(name)) return `${100 * value}\u00a0%`;
  return String(value);
}
