import { labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { deviceToLab, type IccProfile, mediaWhite } from '#craft/icc';
import type { ColourModel } from '#craft/inkmodel';

/**
 * What an RGB output profile says of its printer, as a model without any doubt of its own: nobody knows how well it was
 * measured. Absolute Lab, from the colorimetric table and the media white (ICC.1:2022, 6.3.2).
 * @throws Problem `profile.unsupported` when the profile has no way from device to colour
 */
export function profileModel(profile: IccProfile): ColourModel {
  const toLab = deviceToLab(profile);
  const white = mediaWhite(profile);
  const absolute = (rgb: ArrayLike<number>): Triple3 => labFromXyz(scaled(toLab(rgb), white));
  return {
    predict: (rgb) =>
      rgb.map((row) => ({ lab: absolute(clipped(row)), sdLab: [0, 0, 0], expectedDeltaE00: 0 })),
    predictLab: (rgb) => {
      const out = new Float64Array(rgb.length);
      for (let i = 0; i < rgb.length; i += 3) {
        out.set(absolute(clipped([rgb[i]!, rgb[i + 1]!, rgb[i + 2]!])), i);
      }
      return out;
    },
  };
}

/** Lab beside the own white → XYZ with the perfect diffuser at 1. */
const scaled = (lab: Triple, white: Triple): Triple3 => xyzFromLab(lab, white);

const clipped = (rgb: Triple): Triple3 => rgb.map((v) => Math.min(1, Math.max(0, v))) as Triple3;
