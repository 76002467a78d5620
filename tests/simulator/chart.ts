import type { FrameVariant } from '#craft/sheet';
import { choosePatches, colourSheetId, type PlannedColourSheet, planColourSheet } from '#craft/testsheet';
import { warped } from './optics.js';
import { blank, type Picture } from './picture.js';
import { ink, press } from './print.js';
import { writeMarks } from './write-marks.js';

export interface WrittenChart extends PlannedColourSheet {
  /** As it leaves the program: mirrored when the plan says so. */
  readonly picture: Picture;
}

export interface ChartPaper {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly count: number;
  readonly seed: number;
  readonly material?: 'hard' | 'fabric';
  /** Without it the first arrangement of marks with room for the patches. */
  readonly variant?: FrameVariant;
  readonly mirror?: boolean;
  readonly ppi: number;
}

export async function writeChart(paper: ChartPaper): Promise<WrittenChart> {
  const { widthMm, heightMm, count, seed, material = 'hard', variant, mirror = true, ppi } = paper;
  const planned = planColourSheet({
    sheetId: colourSheetId({ count, seed, material }),
    patches: choosePatches(count, seed),
    mirrorOnWriting: mirror,
    widthMm,
    heightMm,
    marginMm: 3,
    material,
    seed,
    variant,
  });
  const { marks } = planned.plan;
  const picture = await writeMarks({ ...planned, marks } as never, widthMm, heightMm, ppi, { mirror });
  return { ...planned, picture };
}

/** The bare piece of `press` as it is by default; what `unevenly` takes the dye away from. */
const ground = [0.92, 0.92, 0.9] as const;

/**
 * A press that gives more dye here than there. `dye` takes the place on the picture, −1..1 across and down: the light
 * that the dye takes follows Bouguer's law.
 */
export function unevenly(piece: Picture, dye: (u: number, v: number) => number): Picture {
  const { width, height } = piece;
  const data = new Float32Array(piece.data.length);
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const d = dye((2 * (x + 0.5)) / width - 1, (2 * (y + 0.5)) / height - 1);
      for (let c = 0; c < 3; c += 1, at += 1) {
        data[at] = ground[c]! * (piece.data[at]! / ground[c]!) ** d;
      }
    }
  }
  return { ...piece, data };
}

/** Curl, or cloth drawn out of shape: the middle of the sheet moves by so many millimetres, the corners stay. */
export function drawnOut(picture: Picture, acrossMm: number, downMm: number): Picture {
  const { width, height, ppi } = picture;
  const perMm = ppi / 25.4;
  return warped(
    picture,
    picture,
    (x, y) => {
      const bow = Math.sin((Math.PI * x) / width) * Math.sin((Math.PI * y) / height);
      return [x - acrossMm * perMm * bow, y - downMm * perMm * bow];
    },
    () => [1, 1, 1],
  );
}

/** A lamp that is brighter in the middle (cos⁴ of a wide field comes out much like this). */
export function vignetted(picture: Picture, loss: number): Picture {
  const { width, height } = picture;
  const data = Float32Array.from(picture.data, (v, i) => {
    const x = (i / 3) % width;
    const y = i / 3 / width;
    const r2 = ((2 * x) / width - 1.1) ** 2 + ((2 * y) / height - 0.9) ** 2;
    return v * (1 - (loss * r2) / 2);
  });
  return { ...picture, data };
}

/** Light thrown back by the gloss: added, in a round spot. */
export function glinting(
  picture: Picture,
  spot: { readonly x: number; readonly y: number; readonly radius: number; readonly light: number },
): Picture {
  const { width, height } = picture;
  const data = Float32Array.from(picture.data, (v, i) => {
    const x = (Math.floor(i / 3) % width) / width - spot.x;
    const y = (Math.floor(i / 3 / width) / height - spot.y) * (height / width);
    return v + spot.light * Math.exp(-(x * x + y * y) / (2 * spot.radius ** 2));
  });
  return { ...picture, data };
}

/** Threads crossing: every other one a little darker, `threadMm` apart. */
export function woven(picture: Picture, threadMm: number, depth: number): Picture {
  const { width, ppi } = picture;
  const period = (threadMm * ppi) / 25.4;
  const data = Float32Array.from(picture.data, (v, i) => {
    const x = Math.floor(i / 3) % width;
    const y = Math.floor(i / 3 / width);
    const wave = Math.sin((2 * Math.PI * x) / period) * Math.sin((2 * Math.PI * y) / period);
    return v * (1 - (depth * (1 + wave)) / 2);
  });
  return { ...picture, data };
}

/** Part of a picture, as if the sheet lay over the glass's edge. Shares of width and height. */
export function cropped(
  picture: Picture,
  keep: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number },
): Picture {
  const x0 = Math.round(keep.left * picture.width);
  const y0 = Math.round(keep.top * picture.height);
  const width = Math.round(keep.right * picture.width) - x0;
  const height = Math.round(keep.bottom * picture.height) - y0;
  const data = new Float32Array(width * height * 3);
  for (let y = 0; y < height; y += 1) {
    const from = ((y + y0) * picture.width + x0) * 3;
    data.set(picture.data.subarray(from, from + 3 * width), 3 * width * y);
  }
  return { width, height, ppi: picture.ppi, data };
}

export function sideBySide(a: Picture, b: Picture): Picture {
  const whole = blank(a.width + b.width, Math.max(a.height, b.height), a.ppi, [0.9, 0.9, 0.9]);
  for (const [picture, x0] of [
    [a, 0],
    [b, a.width],
  ] as const) {
    for (let y = 0; y < picture.height; y += 1) {
      const row = picture.data.subarray(3 * picture.width * y, 3 * picture.width * (y + 1));
      whole.data.set(row, 3 * (whole.width * y + x0));
    }
  }
  return whole;
}

/** What a solid field of a device colour comes to in linear light: on paper, or pressed. */
export function fieldOf(deviceRgb: readonly number[], surface: 'paper' | 'piece'): [number, number, number] {
  const linear = deviceRgb.map((byte) => {
    const v = byte / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  const printed = ink(blank(1, 1, 300, linear));
  const { data } = surface === 'paper' ? printed : press(printed);
  return [data[0]!, data[1]!, data[2]!];
}
