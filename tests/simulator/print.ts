import { blurred, warped } from './optics.js';
import type { Picture } from './picture.js';

export interface Driver {
  /** The driver mirrors on its own, left for right. */
  readonly mirrors?: boolean;
  /** 1 = as asked. 0.97: fit-to-page. */
  readonly scaleAcross?: number;
  readonly scaleAlong?: number;
  readonly shiftMm?: readonly [number, number];
  /** Paper larger than the sheet, mm on each side. */
  readonly paperBeyondMm?: number;
}

/** What leaves the driver: still device values, laid on a paper. Scaling is about the sheet's middle. */
export function drive(sheet: Picture, driver: Driver): Picture {
  const { mirrors = false, scaleAcross = 1, scaleAlong = 1, shiftMm = [0, 0], paperBeyondMm = 0 } = driver;
  const perMm = sheet.ppi / 25.4;
  const beyond = Math.round(paperBeyondMm * perMm);
  const size = { width: sheet.width + 2 * beyond, height: sheet.height + 2 * beyond, ppi: sheet.ppi };
  return warped(
    sheet,
    size,
    (x, y) => {
      const u = (x - size.width / 2 - shiftMm[0] * perMm) / scaleAcross;
      const v = (y - size.height / 2 - shiftMm[1] * perMm) / scaleAlong;
      return [sheet.width / 2 + (mirrors ? -u : u), sheet.height / 2 + v];
    },
    () => [1, 1, 1],
  );
}

export interface Ink {
  /** σ of the ink's spread, mm. */
  readonly spreadMm?: number;
  /** Mid-tone gain: coverage a becomes a^(1/(1+gain)). */
  readonly gain?: number;
  /** Reflectance of the bare paper. */
  readonly paper?: readonly [number, number, number];
  /** Reflectance of full ink; transfer paper looks dull before pressing (common practice). */
  readonly solid?: readonly [number, number, number];
}

/** Device values become reflectance on paper: spread, gain, paper and ink colour. A channel model, no crosstalk. */
export function ink(picture: Picture, settings: Ink = {}): Picture {
  const { spreadMm = 0.05, gain = 0.2, paper = [0.86, 0.87, 0.88], solid = [0.06, 0.07, 0.08] } = settings;
  const spread = blurred(picture, (spreadMm * picture.ppi) / 25.4);
  const data = new Float32Array(spread.data.length);
  for (let i = 0; i < data.length; i += 1) {
    const coverage = (1 - Math.min(1, Math.max(0, spread.data[i]!))) ** (1 / (1 + gain));
    data[i] = paper[i % 3]! * (1 - coverage) + solid[i % 3]! * coverage;
  }
  return { ...picture, data };
}

export interface Pressing {
  /** Heat shrinks: 0.99 = 1 % smaller. */
  readonly shrink?: number;
  /** σ of the dye's spread into the coat, mm. */
  readonly spreadMm?: number;
  /** Reflectance of the bare piece. */
  readonly ground?: readonly [number, number, number];
  readonly paper?: readonly [number, number, number];
}

/** Face to face: the piece bears the paper's mirror image, stronger than the paper looked. */
export function press(paperPicture: Picture, settings: Pressing = {}): Picture {
  const { shrink = 1, spreadMm = 0.06, ground = [0.92, 0.92, 0.9], paper = [0.86, 0.87, 0.88] } = settings;
  const { width, height, ppi } = paperPicture;
  const soft = blurred(paperPicture, (spreadMm * ppi) / 25.4);
  const turned = warped(
    soft,
    { width, height, ppi },
    (x, y) => [width / 2 - (x - width / 2) / shrink, height / 2 + (y - height / 2) / shrink],
    () => paper,
  );
  const data = turned.data.map((v, i) => {
    const transmitted = Math.min(1, v / paper[i % 3]!);
    return ground[i % 3]! * transmitted ** 1.3;
  });
  return { ...turned, data };
}
