import { type Chance, chanceOf } from './chance.js';
import { blurred, warped } from './optics.js';
import type { Picture } from './picture.js';

export interface Scanner {
  readonly ppi: number;
  /** How the paper lies: degrees clockwise, any angle. */
  readonly turnDegrees?: number;
  /** σ of the optics, scanned pixels. */
  readonly blurPixels?: number;
  /** σ of noise in linear light. */
  readonly noise?: number;
  /** Specks and hairs on the glass. */
  readonly dust?: number;
  /** The scanner's own tone error: linear light to this power. */
  readonly gamma?: number;
  /** Its carriage runs this much too long. */
  readonly alongError?: number;
  /** Brightness of the lid. */
  readonly lid?: number;
  readonly marginMm?: number;
  readonly seed: number;
}

/** A flatbed: the paper turned on the glass, sampled, softened, noisy, dusty. */
export function scan(paper: Picture, scanner: Scanner): Picture {
  const {
    ppi,
    turnDegrees = 0,
    blurPixels = 0.6,
    noise = 0.006,
    dust = 0,
    gamma = 1,
    alongError = 0,
  } = scanner;
  const { lid = 0.9, marginMm = 4, seed } = scanner;
  const chance = chanceOf(seed);
  const ratio = ppi / paper.ppi;
  const angle = (turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const spanX = Math.abs(paper.width * cos) + Math.abs(paper.height * sin);
  const spanY = Math.abs(paper.width * sin) + Math.abs(paper.height * cos);
  const margin = (2 * marginMm * ppi) / 25.4;
  const size = { width: Math.round(spanX * ratio + margin), height: Math.round(spanY * ratio + margin), ppi };
  const soft = blurred(paper, Math.max(0, 0.5 * (1 / ratio - 0.6)));
  let seen = warped(
    soft,
    size,
    (x, y) => {
      const u = (x - size.width / 2) / ratio;
      const v = (y - size.height / 2) / (ratio * (1 + alongError));
      return [paper.width / 2 + u * cos + v * sin, paper.height / 2 - u * sin + v * cos];
    },
    () => [lid, lid, lid],
  );
  seen = blurred(seen, blurPixels);
  for (let i = 0; i < dust; i += 1) speck(seen, chance);
  return { ...seen, data: seen.data.map((v) => Math.max(0, v) ** gamma + noise * chance.normal()) };
}

/** A dark or light speck, or a hair: a short crooked line. */
export function speck(picture: Picture, chance: Chance): void {
  let x = chance.next() * picture.width;
  let y = chance.next() * picture.height;
  let heading = chance.next() * 2 * Math.PI;
  const tone = chance.next() < 0.7 ? 0.1 : 0.95;
  const mm = picture.ppi / 25.4;
  const length = chance.next() < 0.3 ? chance.between(1, 5) * mm : 1;
  const radius = chance.between(0.03, 0.2) * mm;
  for (let run = 0; run < length; run += 0.5) {
    for (let j = Math.floor(y - radius); j <= y + radius; j += 1) {
      for (let i = Math.floor(x - radius); i <= x + radius; i += 1) {
        if (i < 0 || j < 0 || i >= picture.width || j >= picture.height) continue;
        if ((i - x) ** 2 + (j - y) ** 2 > radius ** 2 + 0.3) continue;
        picture.data.fill(tone, (j * picture.width + i) * 3, (j * picture.width + i) * 3 + 3);
      }
    }
    heading += 0.08 * chance.normal();
    x += 0.5 * Math.cos(heading);
    y += 0.5 * Math.sin(heading);
  }
}
