import { type Shortfall, type Side, shareOfFaceCovered, shortfalls, sides } from './cover.js';
import { onWhite, pixelFinder } from './piece-picture.js';
import type { SheetUnderCheck, SmallPicture } from './subject.js';
import type { SheetCheck } from './types.js';

/** Nobody cuts or sees finer than this. */
const worthSayingMm = 0.05;
/** All channels at least this on the artwork's border: its end cannot be told from bare white. */
const paperWhite = 245;
/** A bare rim up to this wide (or the safe margin) looks like a fault rather than like a choice. */
const thinRimMm = 5;

/**
 * Whether the artwork reaches over the trim and its bleed, side by side. Where the artwork's own border is white or
 * see-through its end cannot be seen, so lettering on nothing raises no alarm. A face without bleed and tolerance is a
 * place on something larger (a shirt's front): it has no edge to miss.
 */
export function checkBleed(subject: SheetUnderCheck): SheetCheck[] {
  const { outline, bleedMm, blank, layout } = subject;
  if (shareOfFaceCovered(outline, layout.artwork) <= 1e-9) {
    return [
      {
        code: 'artwork.off-the-piece',
        level: 'stop',
        title: 'The picture lies beside the blank',
        detail: 'None of it would be on the face.',
        remedy: 'Move it back: set both offsets to 0, or choose fill or fit.',
        value: null,
        unit: null,
      },
    ];
  }
  if (bleedMm === 0 && blank.toleranceMm === 0) return [];
  const checks: SheetCheck[] = [];
  const wanting = widestBySide(subject);
  const thin = bleedMm + Math.max(blank.safeMm, thinRimMm);
  const noBleed = wanting.filter(({ depthMm }) => depthMm <= bleedMm + worthSayingMm);
  const rims = wanting.filter(({ depthMm }) => depthMm > bleedMm + worthSayingMm && depthMm <= thin);
  const wide = wanting.filter(({ depthMm }) => depthMm > thin);
  if (noBleed.length > 0) checks.push(missing(subject, noBleed));
  if (rims.length > 0) checks.push(rim(rims, bleedMm));
  if (wide.length > 0) checks.push(inside(wide, bleedMm));
  if (bleedMm < blank.toleranceMm) {
    checks.push({
      code: 'bleed.below-tolerance',
      level: 'look',
      title: 'The bleed is smaller than these blanks differ',
      detail: `One blank may differ from the next by ±${blank.toleranceMm} mm; with ${bleedMm} mm of bleed an unprinted rim can show.`,
      remedy: `Set the bleed to ${blank.toleranceMm} mm or more.`,
      value: bleedMm,
      unit: 'mm',
    });
  }
  return checks;
}

function widestBySide(subject: SheetUnderCheck): Shortfall[] {
  const { outline, bleedMm, layout, picture } = subject;
  const widest = new Map<Side, Shortfall>();
  for (const shortfall of shortfalls(outline, bleedMm, layout.artwork)) {
    if (shortfall.depthMm <= worthSayingMm || (picture !== null && endsInWhite(subject, picture, shortfall)))
      continue;
    if (shortfall.depthMm > (widest.get(shortfall.side)?.depthMm ?? 0)) widest.set(shortfall.side, shortfall);
  }
  return sides.flatMap((side) => widest.get(side) ?? []);
}

/** Whether the artwork is white at its end nearest to the bare place. */
function endsInWhite({ layout }: SheetUnderCheck, picture: SmallPicture, { xMm, yMm }: Shortfall): boolean {
  const pixel = pixelFinder(picture, layout.artwork)(xMm, yMm);
  return pixel < 0 || [0, 1, 2].every((channel) => onWhite(picture, pixel, channel) >= paperWhite);
}

function missing({ outline, bleedMm }: SheetUnderCheck, found: readonly Shortfall[]): SheetCheck {
  return {
    code: 'bleed.missing',
    level: 'look',
    title: 'The bleed is missing',
    detail: `The picture covers the face but not the ${bleedMm} mm beyond it: ${saySides(found, 0)} missing. Laid a little off, the bare blank shows.`,
    remedy:
      'Choose fill, or supply artwork that reaches further: ' +
      `${oneDecimal(outline.widthMm + 2 * bleedMm)} × ${oneDecimal(outline.heightMm + 2 * bleedMm)} mm with its bleed.`,
    value: widestOf(found),
    unit: 'mm',
  };
}

function rim(found: readonly Shortfall[], bleedMm: number): SheetCheck {
  return {
    code: 'edge.white-shows',
    level: 'look',
    title: 'A bare rim will show',
    detail: `The picture ends just inside the edge: ${saySides(found, bleedMm)} stay bare.`,
    remedy: 'Choose fill, make it larger, or make the rim wide enough to look meant.',
    value: widestOf(found) - bleedMm,
    unit: 'mm',
  };
}

function inside(found: readonly Shortfall[], bleedMm: number): SheetCheck {
  return {
    code: 'edge.white-shows',
    level: 'note',
    title: 'The picture ends inside the face',
    detail: `Bare: ${saySides(found, bleedMm)}.`,
    remedy: 'If the face should be covered, choose fill.',
    value: widestOf(found) - bleedMm,
    unit: 'mm',
  };
}

function saySides(found: readonly Shortfall[], lessMm: number): string {
  return found.map(({ side, depthMm }) => `${oneDecimal(depthMm - lessMm)} mm at the ${side}`).join(', ');
}

function widestOf(found: readonly Shortfall[]): number {
  return Math.max(...found.map(({ depthMm }) => depthMm));
}

function oneDecimal(value: number): string {
  return (Math.round(value * 10) / 10).toString();
}
