export interface TextCourse {
  readonly celsius: readonly (number | null)[];
  readonly low?: readonly number[] | null;
  readonly high?: readonly number[] | null;
}

const columns = 64;
const rows = 11;

/**
 * Temperature over time in letters: ● the place followed, ░ where it may lie, ─ what heats it. For a first look at a
 * terminal; the figures are in `--json`.
 */
export function textCurve(seconds: readonly number[], place: TextCourse, heater: TextCourse | null): string {
  const end = seconds.at(-1)!;
  const at = (values: readonly (number | null)[], column: number): number | null => {
    const time = (end * (column + 0.5)) / columns;
    let i = 0;
    while (i < seconds.length - 1 && seconds[i + 1]! < time) i += 1;
    return values[i] ?? null;
  };
  const shown = [place.celsius, place.low, place.high, heater?.celsius]
    .flatMap((values) => values ?? [])
    .filter((value): value is number => value !== null);
  const bottom = Math.floor(Math.min(...shown) / 10) * 10;
  const top = Math.max(bottom + 10, Math.ceil(Math.max(...shown) / 10) * 10);
  const rowOf = (value: number): number =>
    Math.min(rows - 1, Math.max(0, Math.round(((top - value) / (top - bottom)) * (rows - 1))));
  const lines = Array.from({ length: rows }, () => Array<string>(columns).fill(' '));
  for (let column = 0; column < columns; column += 1) {
    const [low, high] = [place.low, place.high].map((values) => (values ? at(values, column) : null));
    if (low != null && high != null)
      for (let row = rowOf(high); row <= rowOf(low); row += 1) lines[row]![column] = '░';
    const heated = heater === null ? null : at(heater.celsius, column);
    if (heated !== null) lines[rowOf(heated)]![column] = '─';
    const value = at(place.celsius, column);
    if (value !== null) lines[rowOf(value)]![column] = '●';
  }
  const labelled = lines.map((line, row) => {
    const value = top - ((top - bottom) * row) / (rows - 1);
    const label = row % 5 === 0 ? `${Math.round(value)} °C` : '';
    return `${label.padStart(7)} ┤${line.join('').trimEnd()}`;
  });
  const [from, middle, to] = ['0 s', `${Math.round(end / 2)} s`, `${Math.round(end)} s`];
  const gap = Math.floor((columns - from.length - middle.length - to.length) / 2);
  return [
    ...labelled,
    `${' '.repeat(8)}└${'─'.repeat(columns)}`,
    `${' '.repeat(9)}${from}${' '.repeat(gap)}${middle}${' '.repeat(gap)}${to}`,
  ].join('\n');
}
