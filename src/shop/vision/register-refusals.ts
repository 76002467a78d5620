import { Problem } from '#craft/problem';
import type { GreyPicture } from '#craft/reading';

/** Fewer pixels on the long side show no fault that could be told from the camera's own. */
const leastLongSide = 400;

/** Photos that tell nothing, before any work is spent on them. @throws Problem `scan.unclear` */
export function refuseEmptyPhoto(
  { width, height }: { readonly width: number; readonly height: number },
  grey: GreyPicture,
): void {
  if (Math.max(width, height) < leastLongSide) {
    throw new Problem(
      'scan.unclear',
      `The photo is only ${width} by ${height} pixels, too few to see the print.`,
      {
        remedy: 'Take it anew with the piece filling most of the picture, and send it at full size.',
      },
    );
  }
  const { mean, deviation } = spreadOf(grey);
  if (mean < 6) {
    throw new Problem('scan.unclear', 'The photo is almost black.', {
      remedy: 'Take it again in daylight or under a lamp.',
    });
  }
  if (deviation < 3) {
    throw new Problem('scan.unclear', 'The photo is one even tone and shows nothing.', {
      remedy: 'Take it again with the whole piece in view.',
    });
  }
}

/** Artwork that no photo can be laid over. @throws Problem `photo.unmatched` */
export function refuseEmptyArtwork(grey: GreyPicture): void {
  if (spreadOf(grey).deviation < 3) {
    throw new Problem(
      'photo.unmatched',
      'The artwork is one even tone, so there is nothing to lay the photo over it by.',
      {
        remedy: 'Look at the photo without the artwork instead.',
      },
    );
  }
}

/** What to say when no way was found to lay them over each other. */
export function unmatched(grey: GreyPicture, isByCorners: boolean): Problem {
  if (isBlurred(grey)) {
    return new Problem('scan.unclear', 'The photo is too blurred to be laid over the artwork.', {
      remedy: 'Hold still, tap the piece on the screen to focus, and take it again.',
    });
  }
  return new Problem('photo.unmatched', 'The photo does not show this artwork, or too little of it.', {
    remedy: isByCorners
      ? 'Check that it is the right artwork and that the corners stand where the artwork’s corners are.'
      : 'Check that it is the right artwork; if it is, mark its four corners in the photo.',
  });
}

function spreadOf({ data }: GreyPicture): { mean: number; deviation: number } {
  let [sum, squares] = [0, 0];
  for (let i = 0; i < data.length; i += 1) {
    sum += data[i]!;
    squares += data[i]! ** 2;
  }
  const mean = sum / data.length;
  return { mean, deviation: Math.sqrt(Math.max(0, squares / data.length - mean * mean)) };
}

/**
 * Whether nothing in the picture is sharp: the steepest steps between neighbours (999 in 1000) against the whole
 * range of tones. A sharp edge takes at least a sixth of the range in one pixel at this size.
 */
function isBlurred({ width, height, data }: GreyPicture): boolean {
  const steps = new Uint32Array(256);
  const tones = new Uint32Array(256);
  for (let y = 0; y < height; y += 1) {
    for (let x = 1; x < width; x += 1) {
      const at = y * width + x;
      const step = Math.abs(data[at]! - data[at - 1]!);
      steps[step] = steps[step]! + 1;
      tones[data[at]!] = tones[data[at]!]! + 1;
    }
  }
  const range = at(tones, 0.99) - at(tones, 0.01);
  return at(steps, 0.999) < 0.12 * range;
}

function at(counts: Uint32Array, share: number): number {
  const all = counts.reduce((sum, n) => sum + n, 0);
  let sum = 0;
  for (let i = 0; i < counts.length; i += 1) {
    sum += counts[i]!;
    if (sum >= share * all) return i;
  }
  return counts.length - 1;
}
