/**
 * A sheet as the program wrote it, printed and pressed by a printer whose spectra are known, as a reader's sensor gets its
 * light; and what an instrument laid on it measures. No marks, frames or layouts are known here.
 */
import sharp from 'sharp';
import { withDye } from './halftone-spectra.js';
import { blurred } from './optics.js';
import type { Picture } from './picture.js';
import type { SpectralPrinter, Triple } from './virtual-printer.js';
import type { VirtualReader } from './virtual-reader.js';

/** How much dye the press gave, 1 = as it should, at a place of the piece: −1..1 across and down. */
export type Dye = (u: number, v: number) => number;

/** Paler towards one side, and stronger in the middle than in the corners: `most` in all, both ways. */
export function unevenPress(most: number, directionDegrees: number): Dye {
  const [cos, sin] = [
    Math.cos((directionDegrees * Math.PI) / 180),
    Math.sin((directionDegrees * Math.PI) / 180),
  ];
  // On a square the tilt reaches 0.5·√2 and the rim −0.5 of the whole at worst.
  return (u, v) => 1 + most * (0.6 * (u * cos + v * sin) * Math.SQRT1_2 + 0.4 * (1 - 1.5 * (u * u + v * v)));
}

/** Where the light falls between full and none. Spread of the ink in the paper and of the dye in the coat, mm. */
const spreadMm = 0.08;
/** The light is worked out for so much more and less dye than it should be, and for places between by a parabola. */
const dyeStep = 0.08;

/** The piece as it reads, in the reader's light before its optics. */
export async function lightOfPiece(
  png: Buffer,
  ppi: number,
  printer: SpectralPrinter,
  reader: VirtualReader,
  dye: Dye,
): Promise<Picture> {
  const { data: bytes, info } = await sharp(png)
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const { place, colours } = palette(bytes);
  const bare = printer.reflect([[1, 1, 1]])[0]!;
  const spectra = printer.reflect(
    colours.map((code) => [(code >> 16) / 255, ((code >> 8) & 255) / 255, (code & 255) / 255]),
  );
  // Nine numbers a colour: for each channel the light, its slope and its bend over the amount of dye.
  const curves = new Float32Array(9 * colours.length);
  spectra.forEach((spectrum, i) => {
    const [less, own, more] = [-dyeStep, 0, dyeStep].map((d) =>
      reader.light(withDye(spectrum, bare, 1 + d).spectrum),
    );
    for (let c = 0; c < 3; c += 1) {
      curves[9 * i + c] = own![c]!;
      curves[9 * i + 3 + c] = (more![c]! - less![c]!) / (2 * dyeStep);
      curves[9 * i + 6 + c] = (more![c]! + less![c]! - 2 * own![c]!) / (2 * dyeStep ** 2);
    }
  });
  const data = new Float32Array(3 * width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      // Face to face: what lies left on the paper lies right on the piece.
      const at = y * width + (width - 1 - x);
      const i = 9 * place[at]!;
      const d = dye((2 * (x + 0.5)) / width - 1, (2 * (y + 0.5)) / height - 1) - 1;
      const to = 3 * (y * width + x);
      for (let c = 0; c < 3; c += 1)
        data[to + c] = curves[i + c]! + d * (curves[i + 3 + c]! + d * curves[i + 6 + c]!);
    }
  }
  return blurred({ width, height, ppi, data }, (spreadMm * ppi) / 25.4);
}

/** Every pixel's number in the list of colours that occur. */
function palette(bytes: Uint8Array): { place: Uint32Array; colours: number[] } {
  const numbers = new Map<number, number>();
  const place = new Uint32Array(bytes.length / 3);
  let last = -1;
  let lastNumber = 0;
  for (let i = 0, at = 0; i < place.length; i += 1, at += 3) {
    const code = (bytes[at]! << 16) | (bytes[at + 1]! << 8) | bytes[at + 2]!;
    if (code !== last) {
      last = code;
      lastNumber = numbers.get(code) ?? numbers.size;
      numbers.set(code, lastNumber);
    }
    place[i] = lastNumber;
  }
  return { place, colours: [...numbers.keys()] };
}

/** What an instrument would find on that piece without noise: device RGB 0..1 and the place, −1..1 across and down. */
export function labOnPiece(
  printer: SpectralPrinter,
  dye: Dye,
  spots: readonly { readonly rgb: Triple; readonly u: number; readonly v: number }[],
): Triple[] {
  const bare = printer.reflect([[1, 1, 1]])[0]!;
  const spectra = printer.reflect(spots.map(({ rgb }) => rgb));
  return spots.map(({ u, v }, i) => withDye(spectra[i]!, bare, dye(u, v)).lab);
}
