import { deltaE00, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { type ForwardGrid, forwardLab, mapGrid, sampleForward } from './forward-grid.js';
import { type GamutMesh, gamutMesh, hueGamut } from './gamut.js';
import { relativeMap, smoothMap } from './intents.js';
import { makeGridInverter } from './invert-grid.js';
import type { ColourModel } from './types.js';

export type MapIntent = 'perceptual' | 'relative' | 'saturation';

/** Device values for a wanted colour. */
export interface InverseAnswer {
  readonly rgb: Triple;
  /** What the model says comes out, same reference as the colour asked for. */
  readonly lab: Triple;
  /** False: the wanted colour lies outside what the printer reaches. */
  readonly inGamut: boolean;
  /** Distance between what was wanted and what the model says comes out. */
  readonly missDeltaE00: number;
  /** Expected distance between what was wanted and what will really come out: the miss and the model's doubt. */
  readonly expectedDeltaE00: number;
}

/** The way back from colour to device, worked out once for a model. */
export interface InkInverse {
  /** Absolute Lab (D50, 2°) → device; colours out of reach keep their hue (relative colorimetric mapping). */
  invert(lab: readonly Triple[]): InverseAnswer[];
  inGamut(lab: Triple): boolean;
  /** The same for media-relative Lab. */
  inGamutRelative(lab: Triple): boolean;
  /** XYZ of the printed white, perfect diffuser Y = 1. */
  readonly mediaWhiteXyz: Triple;
  /**
   * Media-relative Lab → device by an intent; for tables. Calls in order of neighbours are quicker.
   * @param sourceBlackY luminance of the black that perceptual and saturation colours come with; default 0
   */
  deviceFor(intent: MapIntent, sourceBlackY?: number): (lab: Triple) => Triple3;
  /** Device → media-relative Lab, interpolated. */
  colourOf(rgb: Triple): Triple3;
  /** Surface of the reachable colours, absolute Lab. */
  surface(steps?: number): GamutMesh;
}

/** A miss below this counts as reached: the interpolation's own error. */
const reachedDeltaE = 0.3;
/** So many times the surface's distance from the axis: no need to search whether it is inside. */
const surelyOutside = 1.15;
/** How much the surface is blurred over hue for smooth intents, and for the exact one. */
const smoothBlurDegrees = 3;
const exactBlurDegrees = 0.7;
/** Mapped colours may miss by the blur of the surface. */
const settledDeltaE = 1;

export function makeInverse(model: ColourModel, gridSize?: number): InkInverse {
  const absolute = sampleForward(model, gridSize);
  const size = absolute.size;
  const at = 3 * (size ** 3 - 1);
  const mediaWhiteXyz = xyzFromLab([absolute.lab[at]!, absolute.lab[at + 1]!, absolute.lab[at + 2]!]);
  const toRelative = (lab: Triple): Triple3 => labFromXyz(xyzFromLab(lab), mediaWhiteXyz);
  const toAbsolute = (lab: Triple): Triple3 => labFromXyz(xyzFromLab(lab, mediaWhiteXyz));
  const relative = mapGrid(absolute, toRelative);
  const inverter = makeGridInverter(relative);
  const surfaceOf = (grid: ForwardGrid, steps: number): GamutMesh =>
    gamutMesh((rgb) => manyLab(grid, rgb), steps);
  const shell = surfaceOf(relative, 2 * (size - 1));
  const gamut = hueGamut(shell, smoothBlurDegrees);
  const relativeTo = relativeMap(hueGamut(shell, exactBlurDegrees));
  const smooth = { perceptual: { knee: 0.8, stretch: 1 }, saturation: { knee: 0.4, stretch: 1.2 } } as const;

  function invertRelative(lab: Triple, near?: Triple): { rgb: Triple3; inGamut: boolean } {
    const nearness = relativeTo.depth(lab);
    if (nearness < surelyOutside) {
      const direct = inverter(lab, near);
      if (direct.miss < reachedDeltaE) return { rgb: direct.rgb, inGamut: true };
      return { rgb: settle(relativeTo.map(lab), near ?? direct.rgb), inGamut: false };
    }
    return { rgb: settle(relativeTo.map(lab), near), inGamut: false };
  }

  /** A mapped colour lies on the surface or next to it: a start that leads near is good enough. */
  const settle = (lab: Triple, near?: Triple): Triple3 => inverter(lab, near, settledDeltaE).rgb;

  const mapped =
    (map: (lab: Triple) => Triple3, near: () => Triple3 | undefined) =>
    (lab: Triple): Triple3 =>
      settle(map(lab), near());

  return {
    mediaWhiteXyz,
    inGamut: (lab) => inverter(toRelative(lab)).miss < reachedDeltaE,
    inGamutRelative: (lab) => relativeTo.depth(lab) < surelyOutside && inverter(lab).miss < reachedDeltaE,
    invert: (wanted) => {
      const found = wanted.map((lab) => invertRelative(toRelative(lab)));
      const said = model.predict(found.map((f) => f.rgb));
      return wanted.map((lab, i) => {
        const rgb = found[i]!.rgb;
        const miss = deltaE00(lab, said[i]!.lab);
        return {
          rgb,
          lab: said[i]!.lab,
          inGamut: found[i]!.inGamut,
          missDeltaE00: miss,
          expectedDeltaE00: Math.hypot(miss, said[i]!.expectedDeltaE00),
        };
      });
    },
    deviceFor: (intent, sourceBlackY = 0) => {
      let last: Triple3 | undefined;
      const find =
        intent === 'relative'
          ? (lab: Triple) => invertRelative(lab, last).rgb
          : mapped(smoothMap(gamut, { ...smooth[intent], sourceBlackY }), () => last);
      return (lab) => {
        last = find(lab);
        return [...last];
      };
    },
    colourOf: (rgb) => {
      const out = new Float64Array(3);
      forwardLab(relative, rgb, out);
      return [out[0]!, out[1]!, out[2]!];
    },
    surface: (steps = 16) => {
      const mesh = surfaceOf(relative, steps);
      const lab = new Float64Array(mesh.lab.length);
      for (let i = 0; i < lab.length; i += 3) {
        lab.set(toAbsolute([mesh.lab[i]!, mesh.lab[i + 1]!, mesh.lab[i + 2]!]), i);
      }
      return { ...mesh, lab };
    },
  };
}

function manyLab(grid: ForwardGrid, rgb: Float64Array): Float64Array {
  const out = new Float64Array(rgb.length);
  for (let i = 0; i < rgb.length; i += 3) forwardLab(grid, rgb.subarray(i, i + 3), out.subarray(i, i + 3));
  return out;
}
