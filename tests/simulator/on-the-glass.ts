import { blank, type Picture } from './picture.js';

/** A rectangle cut out of a picture, millimetres from its top left. */
export function cutOut(
  picture: Picture,
  rect: { readonly xMm: number; readonly yMm: number; readonly widthMm: number; readonly heightMm: number },
): Picture {
  const perMm = picture.ppi / 25.4;
  const [x0, y0] = [Math.round(rect.xMm * perMm), Math.round(rect.yMm * perMm)];
  const [width, height] = [Math.round(rect.widthMm * perMm), Math.round(rect.heightMm * perMm)];
  const data = new Float32Array(width * height * 3);
  for (let y = 0; y < height; y += 1) {
    const from = ((y + y0) * picture.width + x0) * 3;
    data.set(picture.data.subarray(from, from + 3 * width), 3 * width * y);
  }
  return { width, height, ppi: picture.ppi, data };
}

export interface OnGlass {
  readonly picture: Picture;
  readonly middleXMm: number;
  readonly middleYMm: number;
  /** Clockwise. */
  readonly turnDegrees: number;
}

/** Pieces lying on a scanner's glass under its lid, one beside the other. */
export function onTheGlass(
  pieces: readonly OnGlass[],
  widthMm: number,
  heightMm: number,
  ppi: number,
  lid = 0.85,
): Picture {
  const perMm = ppi / 25.4;
  const glass = blank(Math.round(widthMm * perMm), Math.round(heightMm * perMm), ppi, [lid, lid, lid]);
  for (const { picture, middleXMm, middleYMm, turnDegrees } of pieces) {
    const angle = (turnDegrees * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const [mx, my] = [middleXMm * perMm, middleYMm * perMm];
    const reach = Math.hypot(picture.width, picture.height) / 2;
    for (let y = Math.max(0, Math.floor(my - reach)); y < Math.min(glass.height, my + reach); y += 1) {
      for (let x = Math.max(0, Math.floor(mx - reach)); x < Math.min(glass.width, mx + reach); x += 1) {
        const [dx, dy] = [x + 0.5 - mx, y + 0.5 - my];
        const u = picture.width / 2 + dx * cos + dy * sin - 0.5;
        const v = picture.height / 2 - dx * sin + dy * cos - 0.5;
        if (!(u >= 0 && v >= 0 && u < picture.width - 1 && v < picture.height - 1)) continue;
        const [x0, y0] = [Math.floor(u), Math.floor(v)];
        const [fx, fy] = [u - x0, v - y0];
        for (let c = 0; c < 3; c += 1) {
          const at = 3 * (y0 * picture.width + x0) + c;
          const below = at + 3 * picture.width;
          glass.data[3 * (y * glass.width + x) + c] =
            (picture.data[at]! * (1 - fx) + picture.data[at + 3]! * fx) * (1 - fy) +
            (picture.data[below]! * (1 - fx) + picture.data[below + 3]! * fx) * fy;
        }
      }
    }
  }
  return glass;
}
