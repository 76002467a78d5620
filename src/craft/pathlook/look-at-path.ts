import { labFromSrgb, type Triple, type Triple3 } from '#craft/colour';
import { type BesideWhite, besideWhite } from './beside-white.js';
import type { KnownPath, ShownMesh } from './types.js';

export interface NeutralLook {
  readonly wantedL: number;
  readonly deviceRgb: Triple3;
  readonly lab: Triple3;
  readonly sdLab: Triple3 | null;
  readonly plainLab: Triple3;
}

export interface DoubtLook {
  readonly lab: Triple3;
  readonly hex: string;
  readonly deviceRgb: Triple3;
  readonly expectedDeltaE00: number;
}

export interface PathPicture {
  readonly gamut: ShownMesh;
  readonly srgbGamut: ShownMesh;
  readonly neutrals: NeutralLook[];
  readonly doubt: DoubtLook[];
}

/** Steps along an edge of the device cube. */
const gamutSteps = 12;
const neutralSteps = 21;
/** Device values at which the doubt is told: all combinations. */
const doubtSteps = 7;
const plainSteps = 256;

/** All there is to draw of a path; Lab absolute, device values 0..255. */
export function lookAtPath(path: KnownPath): PathPicture {
  const beside = besideWhite(path.inverse.mediaWhiteXyz);
  const mesh = path.inverse.surface(gamutSteps);
  return {
    gamut: shown(mesh.lab, mesh.triangles, beside),
    srgbGamut: srgbSurface(mesh.rgb, mesh.triangles, beside),
    neutrals: neutralsOf(path, beside),
    doubt: path.isDoubtKnown ? doubtOf(path, beside) : [],
  };
}

function shown(lab: Float64Array, triangles: Uint32Array, beside: BesideWhite): ShownMesh {
  const srgb: number[] = [];
  for (let i = 0; i < lab.length; i += 3) srgb.push(...beside.srgb8([lab[i]!, lab[i + 1]!, lab[i + 2]!]));
  return { lab: Array.from(lab, twoDigits), srgb, triangles: [...triangles] };
}

/** The same cube as sRGB means it, its white moved onto the printed one. */
function srgbSurface(rgb: Float64Array, triangles: Uint32Array, beside: BesideWhite): ShownMesh {
  const lab: number[] = [];
  for (let i = 0; i < rgb.length; i += 3) {
    lab.push(...beside.absolute(labFromSrgb([rgb[i]!, rgb[i + 1]!, rgb[i + 2]!])).map(twoDigits));
  }
  return { lab, srgb: Array.from(rgb, (v) => Math.round(255 * v)), triangles: [...triangles] };
}

function neutralsOf(path: KnownPath, beside: BesideWhite): NeutralLook[] {
  const plain = path.model.predictLab(
    Float64Array.from({ length: 3 * plainSteps }, (_, i) => Math.floor(i / 3) / (plainSteps - 1)),
  );
  const plainLab = Array.from(
    { length: plainSteps },
    (_, i): Triple3 => [plain[3 * i]!, plain[3 * i + 1]!, plain[3 * i + 2]!],
  );
  const plainRelativeL = plainLab.map((lab) => beside.relative(lab)[0]);
  const wanted = Array.from({ length: neutralSteps }, (_, i) => (100 * i) / (neutralSteps - 1));
  const asked = wanted.map((l): Triple3 => beside.absolute([l, 0, 0]));
  const codes = codesFor(path, asked, beside);
  return path.model
    .predict(codes.map((code) => code.map((v) => v / 255) as Triple3))
    .map((said, i): NeutralLook => {
      let nearest = 0;
      plainRelativeL.forEach((l, k) => {
        if (Math.abs(l - wanted[i]!) < Math.abs(plainRelativeL[nearest]! - wanted[i]!)) nearest = k;
      });
      return {
        wantedL: wanted[i]!,
        deviceRgb: codes[i]!,
        lab: [...said.lab],
        sdLab: path.isDoubtKnown ? [...said.sdLab] : null,
        plainLab: plainLab[nearest]!,
      };
    });
}

function doubtOf({ model, readingErrorDeltaE00 }: KnownPath, beside: BesideWhite): DoubtLook[] {
  const codes: Triple3[] = [];
  for (let r = 0; r < doubtSteps; r += 1) {
    for (let g = 0; g < doubtSteps; g += 1) {
      for (let b = 0; b < doubtSteps; b += 1) {
        codes.push([r, g, b].map((v) => Math.round((255 * v) / (doubtSteps - 1))) as Triple3);
      }
    }
  }
  return model.predict(codes.map((code) => code.map((v) => v / 255) as Triple3)).map((said, i) => ({
    lab: said.lab.map(twoDigits) as Triple3,
    hex: beside.hex(said.lab),
    deviceRgb: codes[i]!,
    expectedDeltaE00: Math.hypot(said.expectedDeltaE00, readingErrorDeltaE00),
  }));
}

/** 8-bit codes that a sheet would carry for absolute colours. */
export function codesFor(path: KnownPath, absolute: readonly Triple[], beside: BesideWhite): Triple3[] {
  const { deviceOf } = path;
  const device =
    deviceOf === undefined
      ? path.inverse.invert(absolute).map((answer) => answer.rgb)
      : absolute.map((lab) => deviceOf(beside.relative(lab)));
  return device.map((rgb) => rgb.map((v) => Math.round(255 * Math.min(1, Math.max(0, v)))) as Triple3);
}

const twoDigits = (v: number): number => Math.round(100 * v) / 100;
