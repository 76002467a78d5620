/**
 * How the marks are arranged, roomiest marks first.
 *
 * bands        markers, QR and text along the top, markers and route strip along the bottom
 * sides        the same along the left and the right
 * slim-bands   as bands, smaller
 * slim-sides   as sides, smaller
 * top-only     everything in one slim band along the top: size along the sheet is then measured coarsely
 * left-only    everything in one slim band along the left
 * large-bands  as bands, with markers and code that coarse cloth does not swallow; only where asked for
 * large-sides  as sides, likewise
 */
export type FrameVariant =
  | 'bands'
  | 'sides'
  | 'slim-bands'
  | 'slim-sides'
  | 'top-only'
  | 'left-only'
  | 'large-bands'
  | 'large-sides';

/** As written in the QR code. Never reuse a letter for another arrangement. */
export const frameVariantLetters: Readonly<Record<FrameVariant, string>> = {
  bands: 'B',
  sides: 'S',
  'slim-bands': 'C',
  'slim-sides': 'T',
  'top-only': 'D',
  'left-only': 'U',
  'large-bands': 'E',
  'large-sides': 'V',
};

/** The usual ones. */
export const frameVariants: readonly FrameVariant[] = [
  'bands',
  'sides',
  'slim-bands',
  'slim-sides',
  'top-only',
  'left-only',
];

/** For sheets that are pressed on cloth and read from it. */
export const largeFrameVariants: readonly FrameVariant[] = ['large-bands', 'large-sides'];

/**
 * On cloth: the code's modules are then 0.8 mm, twice a coarse thread (0.3 to 0.5 mm, common practice), and four times
 * the spread of dye in it.
 */
const leastOnClothMm = 16;

/** Side of a corner marker. It grows with the sheet, so that a photograph of the whole sheet still shows it. */
export function markerSizeMm(variant: FrameVariant, widthMm: number, heightMm: number): number {
  if (variant.startsWith('slim-') || variant.endsWith('-only')) return 6;
  const least = variant.startsWith('large-') ? leastOnClothMm : 8;
  return Math.min(24, Math.max(least, Math.round(Math.max(widthMm, heightMm) / 40)));
}

/** In marker sides: the QR code stands this far from the top left marker and is this large, in every variant. */
export const qrGapInMarkers = 0.25;
export const qrSizeInMarkers = 1.25;
