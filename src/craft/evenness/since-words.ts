import type { ComparableMap, Estimate, Found, Place, Sides } from './types.js';
import { atPlace, opposite } from './where.js';

/** How well a press repeats itself from one sheet to the next, ΔE00 (our choice; a press's own repeat is not kept). */
const repeatSd = 0.3;
/** Standard deviations beyond which a change is no chance: 1 in 100 (Φ⁻¹(0.995)). */
const beyond = 2.576;
/** Spots nearer than this share of the face are the same. */
const sameSpot = 0.15;

/**
 * What came, what went and what stayed between two readings of a press's evenness, in plain words. A pattern that is
 * found turned by 180° is said to be so: then it went with the sheet or the pad.
 */
export function sinceWords(before: ComparableMap, now: ComparableMap, sides?: Sides): string {
  const nameOf = (found: Found): string => nameAt(found, sides);
  const was = before.found.filter(({ kind }) => kind !== 'even');
  const is = now.found.filter(({ kind }) => kind !== 'even');
  if (was.length === 0 && is.length === 0) return 'As even as before.';
  if (was.length > 0 && is.length > 0 && isTurned(before, now))
    return 'The same pattern as before, turned by 180°. If the sheet or the pad was turned in between, it goes with that and not with the platen.';
  const left = [...was];
  const came: string[] = [];
  const changed: string[] = [];
  const stayed: string[] = [];
  for (const found of is) {
    const at = left.findIndex((other) => isSame(other, found));
    if (at < 0) {
      came.push(nameOf(found));
      continue;
    }
    const [old] = left.splice(at, 1);
    const [from, to] = [Math.abs(old!.strength.value), Math.abs(found.strength.value)];
    const sure = beyond * Math.hypot(sdOf(old!.strength), sdOf(found.strength), repeatSd);
    if (Math.abs(to - from) <= sure) stayed.push(nameOf(found));
    else
      changed.push(
        `${nameOf(found)} is ${to > from ? 'worse' : 'better'} (${to.toFixed(1)} instead of ${from.toFixed(1)} ΔE00)`,
      );
  }
  const went = left.map(nameOf);
  const parts = [
    ...(came.length > 0 ? [`${listed(came)} ${came.length > 1 ? 'are' : 'is'} new`] : []),
    ...changed,
    ...(went.length > 0 ? [`${listed(went)} ${went.length > 1 ? 'are' : 'is'} gone`] : []),
    ...(stayed.length > 0
      ? [`${listed(stayed)} ${stayed.length > 1 ? 'are' : 'is'} as before, within chance`]
      : []),
  ];
  const text = parts.join('; ');
  return `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}

const sdOf = ({ low, high }: Estimate): number => (high - low) / 3.29;

function isSame(a: Found, b: Found): boolean {
  if (a.kind !== b.kind || Math.sign(a.strength.value) !== Math.sign(b.strength.value)) return false;
  if (a.at === null || b.at === null) return true;
  const far = Math.hypot(a.at.across - b.at.across, a.at.along - b.at.along);
  // A tilt's place is a corner or the middle of a side: its neighbours are the same tilt seen a little otherwise.
  return far < (a.kind === 'tilt' ? 0.51 : sameSpot);
}

const nameAt = ({ kind, at, strength }: Found, sides: Sides | undefined): string =>
  kind === 'tilt'
    ? `the tilt towards the ${atPlace(at!, sides).replace(/^at the |^in the /, '')}`
    : kind === 'rim'
      ? 'the rim'
      : `the ${strength.value < 0 ? 'dark ' : ''}spot ${atPlace(at!, sides)}`;

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** The pattern fits the one before far better turned round than as it lies. */
function isTurned(before: ComparableMap, now: ComparableMap): boolean {
  const places = Array.from({ length: 12 * 8 }, (_, i) => ({
    across: ((i % 12) + 0.5) / 12,
    along: (Math.floor(i / 12) + 0.5) / 8,
  }));
  const is = places.map((place) => at(now, place));
  const as = alike(
    places.map((place) => at(before, place)),
    is,
  );
  const turned = alike(
    places.map((place) => at(before, opposite(place))),
    is,
  );
  return turned > 0.8 && as < 0.3;
}

function at({ columns, rows, smooth }: ComparableMap, { across, along }: Place): number {
  const column = Math.min(columns - 1, Math.floor(across * columns));
  return smooth[Math.min(rows - 1, Math.floor(along * rows)) * columns + column]!;
}

/** Pearson's correlation; 0 where one of them is flat. */
function alike(a: readonly number[], b: readonly number[]): number {
  const mean = (v: readonly number[]): number => v.reduce((sum, x) => sum + x, 0) / v.length;
  const [ma, mb] = [mean(a), mean(b)];
  const product = a.reduce((sum, x, i) => sum + (x - ma) * (b[i]! - mb), 0);
  const squares = Math.sqrt(
    a.reduce((sum, x) => sum + (x - ma) ** 2, 0) * b.reduce((sum, x) => sum + (x - mb) ** 2, 0),
  );
  return squares > 1e-9 ? product / squares : 0;
}
