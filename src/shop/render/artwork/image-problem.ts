import { isProblem, Problem } from '#craft/problem';
import { asDiskProblem } from '../disk-problem.js';

/** What libvips says, as a person should read it. */
export function asImageProblem(error: unknown): Problem {
  if (isProblem(error)) return error;
  const disk = asDiskProblem(error);
  if (disk !== null) return disk;
  const text = error instanceof Error ? error.message : String(error);
  if (/pixel limit|dimensions exceed|too large|exceeds/i.test(text)) {
    return new Problem('image.too-large', 'The picture has more pixels than the set limit.', {
      remedy: 'Save it smaller: 300 pixels per inch at the printed size is enough.',
      cause: error,
    });
  }
  if (/zero-sized|bad dimensions/i.test(text)) {
    return new Problem('image.unreadable', 'The drawing has no size that it could be drawn at.', {
      remedy: 'Give it a width and a height of at most 32 000, then add it again.',
      cause: error,
    });
  }
  if (/unsupported image format|unable to open|missing/i.test(text) && !/Input file is missing/i.test(text)) {
    return new Problem('image.wrong-type', 'The file is not a picture this program reads.', {
      remedy: 'Give a PNG, JPEG, TIFF, WebP, GIF or SVG file.',
      cause: error,
    });
  }
  return new Problem(
    'image.unreadable',
    'The picture is damaged or cut short, and cannot be read to its end.',
    {
      remedy: 'Export or download it again, then add it again.',
      cause: error,
    },
  );
}
