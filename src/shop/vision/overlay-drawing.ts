import { mapPoint, type Point } from '#craft/reading';
import type { RectMm } from '#craft/sheet';
import type { ReadChart } from './read-chart-picture.js';

/** Dark round light shows on any colour; amber and a cross say doubt to whoever does not see colours too. */
const tones = { light: '#ffffff', dark: '#16130f', doubt: '#ffb224' } as const;

/** Line widths below are for a picture of this size. */
const ordinaryLongSide = 2400;

/**
 * What was read, as an SVG that lies over the picture.
 * @param size of the picture drawn over, pixels
 * @param place from the picture as it was read to the picture drawn over
 */
export function drawReading(
  { reading, layout }: ReadChart,
  size: { readonly width: number; readonly height: number },
  place: (point: Point) => Point,
): string {
  const onSheet = (point: Point): Point => place(mapPoint(reading.toPicture, point));
  const unit = Math.max(0.5, Math.max(size.width, size.height) / ordinaryLongSide);
  const { widthMm, heightMm, frame } = layout;
  const sheet: RectMm = { xMm: 0, yMm: 0, widthMm, heightMm };

  const sound: string[] = [];
  const doubtful: string[] = [];
  for (const { outline, isSound } of reading.patches) {
    const corners = outline.map(place);
    if (isSound) sound.push(closed(corners));
    else doubtful.push(closed(corners), crossing(corners));
  }
  for (const { name, isSound } of reading.routeStrip) {
    const patch = frame.routeStrip.find((one) => one.name === name);
    if (!patch) continue;
    const corners = cornersOf(patch.rect, -0.12 * Math.min(patch.rect.widthMm, patch.rect.heightMm)).map(
      onSheet,
    );
    if (isSound) sound.push(closed(corners));
    else doubtful.push(closed(corners), crossing(corners));
  }
  const mmPixels = lengthOf(onSheet({ x: 0, y: 0 }), onSheet({ x: widthMm, y: 0 })) / widthMm;
  const rings = reading.registration.seen.map((point) => {
    const { x, y } = place(point);
    const radius = 1.05 * (layout.registration[0]?.sideMm ?? 2) * mmPixels;
    return `M${at({ x: x - radius, y })}a${n(radius)} ${n(radius)} 0 1 0 ${n(2 * radius)} 0a${n(radius)} ${n(radius)} 0 1 0 ${n(-2 * radius)} 0z`;
  });
  const markers = frame.markers.map(({ rect }) => closed(cornersOf(rect, 0.08 * rect.widthMm).map(onSheet)));
  const brackets = bracketsOf(
    cornersOf(sheet, 0).map(onSheet),
    0.05 * Math.min(widthMm, heightMm) * mmPixels,
  );

  const beyond = `M0 0H${size.width}V${size.height}H0z${closed(cornersOf(sheet, 0).map(onSheet))}`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}" fill="none" stroke-linejoin="round" stroke-linecap="round">
<path d="${beyond}" fill="${tones.dark}" fill-opacity="0.45" fill-rule="evenodd"/>
${twice(sound.join(''), 2 * unit, tones.light)}
${twice([...rings, ...markers].join(''), 2 * unit, tones.light)}
${twice(doubtful.join(''), 3.8 * unit, tones.doubt)}
${twice(brackets.join(''), 4 * unit, tones.light)}
</svg>`;
}

/** A line with a dark one under it that shows on both sides. */
function twice(path: string, width: number, tone: string): string {
  if (path === '') return '';
  const under = width + Math.max(1.2, 0.9 * width);
  return `<path d="${path}" stroke="${tones.dark}" stroke-opacity="0.72" stroke-width="${n(under)}"/><path d="${path}" stroke="${tone}" stroke-width="${n(width)}"/>`;
}

const closed = (points: readonly Point[]): string => `M${points.map(at).join('L')}z`;

/** Both diagonals. */
const crossing = ([a, b, c, d]: readonly Point[]): string => `M${at(a!)}L${at(c!)}M${at(b!)}L${at(d!)}`;

/** At each corner two arms along the edges. */
const bracketsOf = (corners: readonly Point[], arm: number): string[] =>
  corners.map((corner, i) => {
    const before = corners[(i + corners.length - 1) % corners.length]!;
    const after = corners[(i + 1) % corners.length]!;
    return `M${at(towards(corner, before, arm))}L${at(corner)}L${at(towards(corner, after, arm))}`;
  });

function towards(from: Point, to: Point, by: number): Point {
  const share = by / Math.max(by, lengthOf(from, to));
  return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
}

/** Grown by so much on each side. */
const cornersOf = ({ xMm, yMm, widthMm, heightMm }: RectMm, by: number): Point[] => [
  { x: xMm - by, y: yMm - by },
  { x: xMm + widthMm + by, y: yMm - by },
  { x: xMm + widthMm + by, y: yMm + heightMm + by },
  { x: xMm - by, y: yMm + heightMm + by },
];

const lengthOf = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const n = (v: number): string => String(Math.round(10 * v) / 10);
const at = ({ x, y }: Point): string => `${n(x)} ${n(y)}`;
