import type { Mark, MarkFrame, RectMm, Rgb8, RoutePatchName } from './plan.js';

/**
 * Twelve patches in raw device RGB, never through a colour path: when the driver, the paper or the ink changes,
 * they change, and a later scan shows it. The two skin-like ones are near the light and dark skin patches of
 * common test charts (sRGB, from memory); here they are device values and stand for nothing but themselves.
 */
export const routePatches: readonly { readonly name: RoutePatchName; readonly rgb: Rgb8 }[] = [
  { name: 'K', rgb: [0, 0, 0] },
  { name: 'C', rgb: [0, 255, 255] },
  { name: 'M', rgb: [255, 0, 255] },
  { name: 'Y', rgb: [255, 255, 0] },
  { name: 'R', rgb: [255, 0, 0] },
  { name: 'G', rgb: [0, 255, 0] },
  { name: 'B', rgb: [0, 0, 255] },
  { name: 'grey-dark', rgb: [64, 64, 64] },
  { name: 'grey-mid', rgb: [128, 128, 128] },
  { name: 'grey-light', rgb: [192, 192, 192] },
  { name: 'skin-light', rgb: [196, 150, 130] },
  { name: 'skin-dark', rgb: [115, 82, 68] },
];

/** The strip's patches laid side by side along the longer side of a box. */
export function routeStripIn(box: RectMm): MarkFrame['routeStrip'] {
  const lying = box.widthMm >= box.heightMm;
  const step = (lying ? box.widthMm : box.heightMm) / routePatches.length;
  return routePatches.map(({ name, rgb }, i) => ({
    name,
    rgb,
    rect: lying
      ? { xMm: box.xMm + i * step, yMm: box.yMm, widthMm: step, heightMm: box.heightMm }
      : { xMm: box.xMm, yMm: box.yMm + i * step, widthMm: box.widthMm, heightMm: step },
  }));
}

export function routeStripMarks(strip: MarkFrame['routeStrip']): Mark[] {
  return strip.map(({ rect, rgb }) => ({ kind: 'fill', rect, rgb, role: 'route-strip' }));
}
