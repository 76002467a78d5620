import type { FoundMarker } from '#craft/reading';
import { cornerMarkerIds, frameOfCode, type SheetCode } from '#craft/sheet';
import { findMarkers, onFullPicture } from './find-markers.js';
import type { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';
import { readCodeAnywhere, readCodeBeside } from './read-code.js';

export interface FoundSheet {
  readonly mirrored: boolean;
  readonly markers: readonly FoundMarker[];
  readonly code: SheetCode | null;
  /** The marker beside which the code was read. */
  readonly anchor: FoundMarker | null;
}

export type Finding =
  | { readonly sheet: FoundSheet }
  | { readonly sheet: null; readonly why: 'nothing' | 'too-little' }
  /** The ids of the sheets in the picture, as far as their codes tell. */
  | { readonly sheet: null; readonly why: 'several'; readonly sheetIds: readonly string[] };

/** Long side of the picture that is looked at first, roughly; most scans are settled by it. */
const quickLongSide = 1000;
/** Long sides tried in turn after that: most pictures are settled by the first. */
const longSides = [1600, 2800, 4200] as const;
/** Without a readable code so many markers must agree before anything is said. */
const enoughWithoutCode = 3;

interface Candidate {
  readonly mirrored: boolean;
  readonly markers: readonly FoundMarker[];
}
interface ReadCode {
  readonly mirrored: boolean;
  readonly anchor: FoundMarker;
  readonly code: SheetCode;
}

export function findSheet(cv: OpenCv, full: GreySource): Finding {
  const longSide = Math.max(full.width, full.height);
  const factorFor = (side: number): number => Math.max(1, Math.ceil(longSide / side));
  const quick = quickLook(cv, full, factorFor(quickLongSide));
  if (quick) return quick;
  const factors = [...new Set(longSides.map(factorFor))];
  let best: FoundSheet | null = null;
  for (const factor of factors) {
    const candidates = candidatesIn(cv, full, factor, 'thorough');
    const read = codesBeside(full, candidates);
    if (areSeveral(read)) return { sheet: null, why: 'several', sheetIds: idsOf(read) };
    const [first] = read;
    if (first) {
      const own = candidates.find(({ mirrored }) => mirrored === first.mirrored)!;
      const finer = factors.filter((other) => other < factor);
      return { sheet: { ...first, markers: withMissing(cv, full, own, first.code, finer) } };
    }
    for (const candidate of candidates) {
      if (distinct(candidate) > (best ? distinct(best) : 0))
        best = { ...candidate, code: null, anchor: null };
    }
  }
  for (const factor of factors) {
    const read = readCodeAnywhere(full.shrunk(factor));
    if (!read) continue;
    const markers = best?.mirrored === read.mirrored ? best.markers : [];
    return { sheet: { ...read, markers, anchor: null } };
  }
  if (best && distinct(best) >= enoughWithoutCode) return { sheet: best };
  return { sheet: null, why: best ? 'too-little' : 'nothing' };
}

/** Believed only when it leaves nothing open: one code, each marker that the code speaks of once, and no other. */
function quickLook(cv: OpenCv, full: GreySource, factor: number): Finding | null {
  const candidates = candidatesIn(cv, full, factor, 'quick');
  const [own, other] = candidates;
  if (!own || (other && other.markers.length > 0)) return null;
  const read = codesBeside(full, [own]);
  const [first] = read;
  if (!first || read.length > 1) return null;
  const wanted = frameOfCode(first.code)?.markers.map(({ id }) => id) ?? [];
  const isWhole =
    own.markers.length === wanted.length &&
    wanted.every((id) => own.markers.some((marker) => marker.id === id));
  return isWhole ? { sheet: { ...first, markers: own.markers } } : null;
}

/** Those as they read and those as in a mirror, the more numerous first. */
function candidatesIn(
  cv: OpenCv,
  full: GreySource,
  factor: number,
  care: 'quick' | 'thorough',
): readonly Candidate[] {
  const small = care === 'quick' ? full.roughlyShrunk(factor) : full.shrunk(factor);
  const seen = findMarkers(cv, small, care);
  const plain = { mirrored: false, markers: onFullPicture(full, seen.plain, factor) };
  const mirror = { mirrored: true, markers: onFullPicture(full, seen.mirrored, factor) };
  return plain.markers.length >= mirror.markers.length ? [plain, mirror] : [mirror, plain];
}

function codesBeside(full: GreySource, candidates: readonly Candidate[]): ReadCode[] {
  return candidates.flatMap(({ mirrored, markers }) =>
    markers
      .filter(({ id }) => id === cornerMarkerIds.topLeft)
      .flatMap((anchor): ReadCode[] => {
        const code = readCodeBeside(full, anchor);
        return code ? [{ mirrored, anchor, code }] : [];
      }),
  );
}

/** The code says how many markers there are: those not found yet are looked for in the larger pictures. */
function withMissing(
  cv: OpenCv,
  full: GreySource,
  candidate: Candidate,
  code: SheetCode,
  factors: readonly number[],
): readonly FoundMarker[] {
  let { markers } = candidate;
  const wanted = frameOfCode(code)?.markers.map(({ id }) => id) ?? [];
  for (const factor of factors) {
    const missing = wanted.filter((id) => !markers.some((marker) => marker.id === id));
    if (missing.length === 0) break;
    const found = candidatesIn(cv, full, factor, 'thorough').find(
      ({ mirrored }) => mirrored === candidate.mirrored,
    )!;
    markers = [...markers, ...found.markers.filter(({ id }) => missing.includes(id))];
  }
  return markers;
}

const distinct = ({ markers }: Candidate): number => new Set(markers.map(({ id }) => id)).size;

/** Two of the same corner, each with its own code beside it, are two sheets; one found twice at one place is not. */
function areSeveral(read: readonly ReadCode[]): boolean {
  return read.some(({ anchor: one }, i) =>
    read.slice(i + 1).some(({ anchor: other }) => {
      const [a, b, c] = [one.corners[0]!, one.corners[1]!, other.corners[0]!];
      return Math.hypot(a.x - c.x, a.y - c.y) > Math.hypot(a.x - b.x, a.y - b.y);
    }),
  );
}

const idsOf = (read: readonly ReadCode[]): string[] => [...new Set(read.map(({ code }) => code.sheetId))];
