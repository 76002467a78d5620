import type { Triple } from '#craft/colour';
import { type RgbLutProfileSpec, writeRgbLutProfile } from '#craft/icc';
import { type InkInverse, makeInverse } from './inverse.js';
import type { ColourModel } from './types.js';

export interface InkProfileOptions
  extends Pick<
    RgbLutProfileSpec,
    'version' | 'encoding' | 'description' | 'copyright' | 'createdAt' | 'a2bGridPoints' | 'b2aGridPoints'
  > {
  /** If it was already worked out for the same model. */
  readonly inverse?: InkInverse;
}

/** Luminance of the perceptual reference black, 0.0034731 (ICC.1:2022, 6.3.3 and Annex D; version 2 has none). */
const referenceBlackY = 0.0034731;

/** An output profile of the model, with tables for the three intents and the gamut (ICC version 2 or 4). */
export function inkProfile(model: ColourModel, options: InkProfileOptions): Uint8Array {
  const { inverse = makeInverse(model), ...spec } = options;
  const blackY = options.version === 4 ? referenceBlackY : 0;
  // One table from device to colour serves all intents: what the printer does has no intent.
  const a2b = (rgb: Triple): Triple => inverse.colourOf(rgb);
  return writeRgbLutProfile({
    a2bGridPoints: 33,
    ...spec,
    perceptual: { a2b, b2a: inverse.deviceFor('perceptual', blackY) },
    relative: { a2b, b2a: inverse.deviceFor('relative') },
    saturation: { a2b, b2a: inverse.deviceFor('saturation', blackY) },
    mediaWhiteXyz: inverse.mediaWhiteXyz,
    outside: (lab) => !inverse.inGamutRelative(lab),
  });
}
