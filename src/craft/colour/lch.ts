import type { Triple, Triple3 } from './triple.js';

/** Lightness, chroma, hue in degrees 0 ≤ h < 360 of any (L, a, b): CIELAB (CIE 015:2018, 8.2.1) or Oklab. */
export function lchFromLab(lab: Triple): Triple3 {
  const hue = (Math.atan2(lab[2], lab[1]) * 180) / Math.PI;
  return [lab[0], Math.hypot(lab[1], lab[2]), hue < 0 ? hue + 360 : hue];
}

export function labFromLch(lch: Triple): Triple3 {
  const hue = (lch[2] * Math.PI) / 180;
  return [lch[0], lch[1] * Math.cos(hue), lch[1] * Math.sin(hue)];
}
