import { labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';

/** Beside the path's own white: so that the tint of the ground is not taken for a cast. */
export const besideWhite = (lab: Triple, whiteLab: Triple): Triple3 =>
  labFromXyz(xyzFromLab(lab), xyzFromLab(whiteLab));

export const castOf = (lab: Triple): number => Math.hypot(lab[1], lab[2]);

/** Where a cast leans, by its hue in CIELAB. */
export function leaning(lab: Triple): string {
  const names = ['pink', 'orange', 'yellow', 'green', 'green', 'turquoise', 'blue', 'violet'];
  const hue = ((Math.atan2(lab[2], lab[1]) * 180) / Math.PI + 360) % 360;
  return names[Math.round(hue / 45) % 8] ?? '';
}

/**
 * A cast in words. Below 1 (about the smallest that is seen beside a neutral; common practice) there is nothing to
 * speak of.
 */
export function castWords(lab: Triple): string {
  const cast = castOf(lab);
  if (cast < 1) return 'neutral';
  return `${cast < 2.5 ? 'a hint of' : cast < 5 ? 'a touch of' : 'clearly'} ${leaning(lab)}`;
}
