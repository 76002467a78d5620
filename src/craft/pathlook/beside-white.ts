import { formatHex, labFromXyz, srgb8FromLab, type Triple, type Triple3, xyzFromLab } from '#craft/colour';

/** Colours as eyes see them once used to the printed white, and back (media-relative: ICC.1:2022, 6.3.2.2). */
export interface BesideWhite {
  relative(absolute: Triple): Triple3;
  absolute(relative: Triple): Triple3;
  /** On a screen whose white stands for the printed one; clipped to sRGB. */
  hex(absolute: Triple): string;
  srgb8(absolute: Triple): Triple3;
}

export function besideWhite(mediaWhiteXyz: Triple): BesideWhite {
  const relative = (lab: Triple): Triple3 => labFromXyz(xyzFromLab(lab), mediaWhiteXyz);
  return {
    relative,
    absolute: (lab) => labFromXyz(xyzFromLab(lab, mediaWhiteXyz)),
    hex: (lab) => formatHex(srgb8FromLab(relative(lab))),
    srgb8: (lab) => srgb8FromLab(relative(lab)),
  };
}
