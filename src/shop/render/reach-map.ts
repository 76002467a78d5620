import { setImmediate } from 'node:timers/promises';
import { throwIfCancelled } from './cancel.js';
import type { PieceSample, ReachLookUp } from './types.js';

/** Unreachable pixels: a strong magenta over quiet grey, hatched so that colour alone does not tell. */
const marked = [196, 30, 120] as const;
const hatchPixels = 6;
/** Rows looked up before other work gets its turn. */
const rowsAtOnce = 64;

/** The piece in quiet grey with its unreachable colours marked. 8-bit RGB. */
export async function drawReach(
  sample: PieceSample,
  reach: ReachLookUp,
  signal?: AbortSignal,
): Promise<Uint8Array> {
  const { widthPixels: width, heightPixels: height, source, sourceChannels, deviceRgb } = sample;
  const out = new Uint8Array(width * height * 3);
  const encoded = new Float64Array(sourceChannels);
  for (let y = 0; y < height; y += 1) {
    if (y % rowsAtOnce === 0) {
      throwIfCancelled(signal);
      await setImmediate();
    }
    for (let x = 0; x < width; x += 1) {
      const pixel = y * width + x;
      for (let channel = 0; channel < sourceChannels; channel += 1) {
        encoded[channel] = source[pixel * sourceChannels + channel]! / 255;
      }
      const at = pixel * 3;
      const grey = quiet(deviceRgb[at]!, deviceRgb[at + 1]!, deviceRgb[at + 2]!);
      const over = reach.deltaE00At(encoded) > reach.thresholdDeltaE00;
      const stripe = (x + y) % hatchPixels < hatchPixels / 2;
      for (let channel = 0; channel < 3; channel += 1) {
        out[at + channel] = over
          ? stripe
            ? marked[channel]!
            : Math.round((marked[channel]! + grey) / 2)
          : grey;
      }
    }
  }
  return out;
}

/** Rec. 709 luma (ITU-R BT.709) lifted towards white, so that the marks stand out. */
function quiet(r: number, g: number, b: number): number {
  return Math.round(110 + (0.2126 * r + 0.7152 * g + 0.0722 * b) * 0.55);
}
