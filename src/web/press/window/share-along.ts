import type { WindowFieldFacts } from '#contract';

/** The field along one axis, at a value of the other (between its nodes; held at the ends). */
export function shareAlong(
  field: WindowFieldFacts,
  along: 'time' | 'temperature',
  at: number,
): [number, number][] {
  const across = field.dwellSeconds.length;
  const [axis, other] =
    along === 'time' ? [field.dwellSeconds, field.platenC] : [field.platenC, field.dwellSeconds];
  const last = other.length - 1;
  const held = Math.min(other[last] ?? 0, Math.max(other[0] ?? 0, at));
  const above = Math.max(
    1,
    other.findIndex((value) => value >= held),
  );
  const j = Math.min(above, last);
  const i = Math.max(0, j - 1);
  const [a = 0, b = a] = [other[i], other[j]];
  const share = b > a ? (held - a) / (b - a) : 0;
  const value = (k: number, o: number) =>
    field.within[along === 'time' ? o * across + k : k * across + o] ?? 0;
  return axis.map((x, k) => [x, (1 - share) * value(k, i) + share * value(k, j)]);
}
