import {
  d50,
  labFromSrgb,
  labFromXyz,
  lchFromLab,
  type Triple,
  type Triple3,
  xyzFromLab,
} from '#craft/colour';
import {
  angles,
  focusAt,
  gamutMesh,
  type HueGamut,
  hueGamut,
  labOfOklab,
  oklabOf,
  reachAt,
} from './gamut.js';

/** Lab (media-relative) → Lab within the gamut or on its surface; a final inversion settles what is left. */
export interface ColourMap {
  map(lab: Triple): Triple3;
  /** Distance from the axis beside the surface's in the same direction: above 1 is outside, roughly. */
  depth(lab: Triple): number;
}

/**
 * Relative colorimetric: what can be reached stays; the rest goes to the nearest colour of the same hue in Oklab
 * (minimum distance in the plane of constant hue, as HPMINDE of CIE 156:2004 does in CIELAB).
 */
export function relativeMap(gamut: HueGamut): ColourMap {
  const look = (
    lab: Triple,
  ): { light: number; chroma: number; hue: number; focus: number; depth: number } => {
    const [light, chroma, hue] = lchFromLab(oklabOf(lab));
    const focus = focusAt(gamut, hue);
    const distance = Math.hypot(chroma, light - focus);
    const reach = reachAt(gamut, hue, Math.atan2(light - focus, chroma));
    return { light, chroma, hue, focus, depth: distance / Math.max(1e-6, reach) };
  };
  return {
    depth: (lab) => look(lab).depth,
    map: (lab) => {
      const { light, chroma, hue, focus, depth } = look(lab);
      if (depth <= 1) return [lab[0], lab[1], lab[2]];
      const [c, l] = nearestOnBoundary(gamut, hue, focus, chroma, light);
      return labAt(l, c, hue);
    },
  };
}

export interface SmoothMapOptions {
  /** Share of the way to the surface that is left as it is: 0.8 for pictures, little for saturation. */
  readonly knee: number;
  /** How far colours may be stretched where the printer reaches farther than the source. 1: not at all. */
  readonly stretch: number;
  /** Luminance of the source's black beside white. Default 0. */
  readonly sourceBlackY?: number;
}

/**
 * Perceptual and saturation: black is brought onto black in linear light (as ISO 18619 does), then colours are drawn along rays towards
 * the height of the printer's cusp on the neutral axis, smoothly, the source's surface onto the printer's. The source
 * is taken to be sRGB, as untagged artwork is.
 */
export function smoothMap(gamut: HueGamut, options: SmoothMapOptions): (lab: Triple) => Triple3 {
  const ownBlackY = xyzFromLab(labOfOklab([gamut.black, 0, 0]))[1];
  const lift = liftBlack(options.sourceBlackY ?? 0, Math.max(0, ownBlackY));
  const mesh = gamutMesh(srgbMesh, 24);
  const source = hueGamut({ ...mesh, lab: mapLab(mesh.lab, lift) }, 1, gamut.focus);
  return (lab) => {
    const [light, chroma, hue] = lchFromLab(oklabOf(lift(lab)));
    const focus = focusAt(gamut, hue);
    const height = light - focus;
    const distance = Math.hypot(chroma, height);
    if (distance < 1e-9) return labAt(focus, 0, hue);
    const turn = Math.atan2(height, chroma);
    const own = reachAt(gamut, hue, turn);
    const theirs = reachAt(source, hue, turn);
    const scale = squeeze(distance, own, theirs, options) / distance;
    return labAt(focus + height * scale, chroma * scale, hue);
  };
}

const labAt = (light: number, chroma: number, hue: number): Triple3 => {
  const turn = (hue * Math.PI) / 180;
  return labOfOklab([light, chroma * Math.cos(turn), chroma * Math.sin(turn)]);
};

/** sRGB device values → Lab, as a mesh wants it. */
function srgbMesh(rgb: Float64Array): Float64Array {
  return mapLab(rgb, labFromSrgb);
}

function mapLab(from: Float64Array, change: (triple: Triple3) => Triple3): Float64Array {
  const out = new Float64Array(from.length);
  for (let i = 0; i < out.length; i += 3) out.set(change([from[i]!, from[i + 1]!, from[i + 2]!]), i);
  return out;
}

/** New distance from the focus: straight up to the knee, then a hyperbola that ends on the printer's surface. */
function squeeze(distance: number, own: number, theirs: number, options: SmoothMapOptions): number {
  if (theirs <= own) {
    const room = Math.min(options.stretch, own / Math.max(1e-6, theirs));
    // Stretching grows towards the surface, so that greys and skin keep their place.
    const share = Math.min(1, distance / theirs);
    return Math.min(own, distance * (1 + (room - 1) * share * share));
  }
  const knee = options.knee * own;
  if (distance <= knee) return distance;
  const end = (theirs - knee) / (own - knee);
  const t = Math.min(end, (distance - knee) / (own - knee));
  return knee + ((own - knee) * t) / (1 + t * (1 - 1 / end));
}

/** Linear in XYZ: black of luminance `from` onto black of luminance `to`, white onto white (ISO 18619). */
function liftBlack(from: number, to: number): (lab: Triple) => Triple3 {
  const scale = (1 - to) / (1 - from);
  return (lab) => {
    const xyz = xyzFromLab(lab);
    return labFromXyz([
      scale * xyz[0] + (1 - scale) * d50[0],
      scale * xyz[1] + (1 - scale) * d50[1],
      scale * xyz[2] + (1 - scale) * d50[2],
    ]);
  };
}

/** How much farther than the nearest point others may be and still count, as a share of its distance. */
const softness = 0.06;

/**
 * Nearest point (C, L) of the boundary at this hue. Where two stretches of it are nearly as near, their mean: seen
 * along a ramp the answer then glides from one to the other instead of jumping.
 */
function nearestOnBoundary(
  gamut: HueGamut,
  hue: number,
  focus: number,
  chroma: number,
  light: number,
): [number, number] {
  const steps = 4 * (angles - 1);
  const candidates: [number, number, number][] = [];
  let least = Number.POSITIVE_INFINITY;
  let [c0, l0] = [0, 0];
  for (let k = 0; k <= steps; k += 1) {
    const turn = (Math.PI * k) / steps - Math.PI / 2;
    const reach = reachAt(gamut, hue, turn);
    // Never more colourful than what was asked: a printer's black off the axis must not tint greys.
    const c1 = Math.min(chroma, Math.max(0, reach * Math.cos(turn)));
    const l1 = focus + reach * Math.sin(turn);
    if (k > 0) {
      const [ec, el] = [c1 - c0, l1 - l0];
      const length2 = ec * ec + el * el;
      const s =
        length2 === 0 ? 0 : Math.min(1, Math.max(0, ((chroma - c0) * ec + (light - l0) * el) / length2));
      const [c, l] = [c0 + s * ec, l0 + s * el];
      const d = Math.hypot(chroma - c, light - l);
      candidates.push([c, l, d]);
      least = Math.min(least, d);
    }
    [c0, l0] = [c1, l1];
  }
  let [sumC, sumL, total] = [0, 0, 0];
  // Greys darker than black go to black itself: there is only one way, and nothing to glide between.
  const scale = softness * Math.min(least, chroma) + 1e-5;
  for (const [c, l, d] of candidates) {
    const w = Math.exp(-(((d - least) / scale) ** 2));
    sumC += w * c;
    sumL += w * l;
    total += w;
  }
  return [sumC / total, sumL / total];
}
