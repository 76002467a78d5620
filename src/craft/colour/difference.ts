import type { Triple } from './triple.js';

const degrees = 180 / Math.PI;
const radians = Math.PI / 180;

/**
 * CIEDE2000 with kL = kC = kH = 1 (ISO/CIE 11664-6:2014). Equation numbers are those of Sharma, Wu & Dalal,
 * Color Res. Appl. 30(1), 2005.
 */
export function deltaE00(one: Triple, two: Triple): number {
  const [l1, a1, b1] = one;
  const [l2, a2, b2] = two;
  const meanC = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2; // (2), (3)
  const meanC7 = meanC ** 7;
  const g = 0.5 * (1 - Math.sqrt(meanC7 / (meanC7 + 6103515625))); // (4); 25^7
  const ap1 = (1 + g) * a1; // (5)
  const ap2 = (1 + g) * a2;
  const cp1 = Math.hypot(ap1, b1); // (6)
  const cp2 = Math.hypot(ap2, b2);
  const hp1 = hueDegrees(ap1, b1); // (7)
  const hp2 = hueDegrees(ap2, b2);
  const neutral = cp1 * cp2 === 0;

  const dL = l2 - l1; // (8)
  const dC = cp2 - cp1; // (9)
  let dh = 0; // (10)
  if (!neutral) {
    dh = hp2 - hp1;
    if (dh > 180) dh -= 360;
    else if (dh < -180) dh += 360;
  }
  const dH = 2 * Math.sqrt(cp1 * cp2) * Math.sin((dh / 2) * radians); // (11)

  const lm = (l1 + l2) / 2; // (12)
  const cm = (cp1 + cp2) / 2; // (13)
  let hm = hp1 + hp2; // (14)
  if (!neutral) {
    if (Math.abs(hp1 - hp2) > 180) hm += hm < 360 ? 360 : -360;
    hm /= 2;
  }

  const t =
    1 -
    0.17 * Math.cos((hm - 30) * radians) +
    0.24 * Math.cos(2 * hm * radians) +
    0.32 * Math.cos((3 * hm + 6) * radians) -
    0.2 * Math.cos((4 * hm - 63) * radians); // (15)
  const turn = 30 * Math.exp(-(((hm - 275) / 25) ** 2)); // (16)
  const cm7 = cm ** 7;
  const rc = 2 * Math.sqrt(cm7 / (cm7 + 6103515625)); // (17)
  const l50 = (lm - 50) ** 2;
  const sl = 1 + (0.015 * l50) / Math.sqrt(20 + l50); // (18)
  const sc = 1 + 0.045 * cm; // (19)
  const sh = 1 + 0.015 * cm * t; // (20)
  const rt = -Math.sin(2 * turn * radians) * rc; // (21)

  const kl = dL / sl;
  const kc = dC / sc;
  const kh = dH / sh;
  // Rounding can push the form a hair below zero for equal colours.
  return Math.sqrt(Math.max(0, kl * kl + kc * kc + kh * kh + rt * kc * kh)); // (22)
}

function hueDegrees(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const h = Math.atan2(b, a) * degrees;
  return h < 0 ? h + 360 : h;
}

/** CIE 1976 difference: distance in CIELAB (CIE 015:2018, 8.2.1.3). */
export function deltaE76(one: Triple, two: Triple): number {
  return Math.hypot(one[0] - two[0], one[1] - two[1], one[2] - two[2]);
}
