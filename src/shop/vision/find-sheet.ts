import type { FoundMarker, GreyPicture } from '#craft/reading';
import { cornerMarkerIds, frameOfCode, type SheetCode } from '#craft/sheet';
import { findMarkers, onFullPicture } from './find-markers.js';
import { shrunk } from './grey.js';
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
  | { readonly sheet: null; readonly why: 'nothing' | 'several' | 'too-little' };

/** Long sides tried in turn: most pictures are settled by the first. */
const longSides = [1600, 2800, 4200] as const;
/** Without a readable code so many markers must agree before anything is said. */
const enoughWithoutCode = 3;

export function findSheet(cv: OpenCv, full: GreyPicture): Finding {
  const longSide = Math.max(full.width, full.height);
  const factors = [...new Set(longSides.map((side) => Math.max(1, Math.ceil(longSide / side))))];
  let best: FoundSheet | null = null;
  for (const factor of factors) {
    const small = shrunk(full, factor);
    const look = (mirrored: boolean): Candidate => ({
      mirrored,
      markers: onFullPicture(full, findMarkers(cv, small, mirrored), factor),
    });
    const plain = look(false);
    const mirror = look(true);
    for (const candidate of plain.markers.length >= mirror.markers.length
      ? [plain, mirror]
      : [mirror, plain]) {
      const read = candidate.markers
        .filter(({ id }) => id === cornerMarkerIds.topLeft)
        .map((anchor) => ({ anchor, code: readCodeBeside(full, anchor) }))
        .filter(({ code }) => code !== null);
      if (read.length > 1 && areApart(read.map(({ anchor }) => anchor)))
        return { sheet: null, why: 'several' };
      if (read[0]) {
        const { mirrored } = candidate;
        const finer = factors.filter((other) => other < factor);
        return { sheet: { mirrored, ...read[0], markers: withMissing(cv, full, candidate, read[0], finer) } };
      }
      if (distinct(candidate) > (best ? distinct(best) : 0))
        best = { ...candidate, code: null, anchor: null };
    }
  }
  for (const factor of factors) {
    const read = readCodeAnywhere(shrunk(full, factor));
    if (!read) continue;
    const markers = best?.mirrored === read.mirrored ? best.markers : [];
    return { sheet: { ...read, markers, anchor: null } };
  }
  if (best && distinct(best) >= enoughWithoutCode) return { sheet: best };
  return { sheet: null, why: best ? 'too-little' : 'nothing' };
}

/** The code says how many markers there are: those not found yet are looked for in the larger pictures. */
function withMissing(
  cv: OpenCv,
  full: GreyPicture,
  candidate: Candidate,
  { code }: { readonly code: SheetCode | null },
  factors: readonly number[],
): readonly FoundMarker[] {
  let { markers } = candidate;
  const wanted = (code && frameOfCode(code)?.markers.map(({ id }) => id)) ?? [];
  for (const factor of factors) {
    const missing = wanted.filter((id) => !markers.some((marker) => marker.id === id));
    if (missing.length === 0) break;
    const found = onFullPicture(full, findMarkers(cv, shrunk(full, factor), candidate.mirrored), factor);
    markers = [...markers, ...found.filter(({ id }) => missing.includes(id))];
  }
  return markers;
}

interface Candidate {
  readonly mirrored: boolean;
  readonly markers: readonly FoundMarker[];
}

const distinct = ({ markers }: Candidate): number => new Set(markers.map(({ id }) => id)).size;

/** Two of the same corner, each with its own code beside it, are two sheets; one found twice at one place is not. */
function areApart(markers: readonly FoundMarker[]): boolean {
  const [one, other] = markers;
  const [a, b, c] = [one!.corners[0]!, one!.corners[1]!, other!.corners[0]!];
  return Math.hypot(a.x - c.x, a.y - c.y) > Math.hypot(a.x - b.x, a.y - b.y);
}
