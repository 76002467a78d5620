import { chanceOf } from './chance.js';
import { blurred, warped } from './optics.js';
import type { Picture } from './picture.js';

/** A phone before a piece. Angles in degrees; the piece is turned, the camera stands still. */
export interface PieceCamera {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly tilt?: number;
  readonly pan?: number;
  readonly roll?: number;
  /** Share of the frame that the piece fills. */
  readonly fill?: number;
  /** Focal length over frame width. */
  readonly focal?: number;
  readonly cast?: readonly [number, number, number];
  readonly exposure?: number;
  /** Light falls off over the piece from one side: 0.3 = 30 % between the left and right of the frame. */
  readonly slope?: number;
  readonly vignetting?: number;
  readonly blurPixels?: number;
  readonly noise?: number;
  /** Light of the background, linear. */
  readonly ground?: readonly [number, number, number];
}

/** What is printed on, in millimetres; a mug's surface is given unrolled, its middle facing the camera. */
export type PieceShape =
  | { readonly kind: 'flat'; readonly widthMm: number; readonly heightMm: number }
  | {
      readonly kind: 'mug';
      readonly diameterMm: number;
      readonly heightMm: number;
      readonly widthMm: number;
    };

export interface SeenAt {
  readonly x: number;
  readonly y: number;
  /** In front, not turned away. */
  readonly isSeen: boolean;
}

/** Where a place of the piece (mm from its middle) comes to lie in the photograph. */
export type PlaceInPhoto = (xMm: number, yMm: number) => SeenAt;

type Vector = readonly [number, number, number];

interface Pose {
  readonly rows: readonly [Vector, Vector, Vector];
  readonly f: number;
  readonly distanceMm: number;
  readonly cx: number;
  readonly cy: number;
}

function poseOf(shape: PieceShape, camera: PieceCamera, seed: number): Pose {
  const { widthPixels: width, heightPixels: height, tilt = 0, pan = 0, roll = 0 } = camera;
  const { fill = 0.8, focal = 0.8 } = camera;
  const chance = chanceOf(seed);
  const [a, b, c] = [tilt, pan, roll].map((d) => (d * Math.PI) / 180) as [number, number, number];
  const [ca, sa, cb, sb, cc, sc] = [
    Math.cos(a),
    Math.sin(a),
    Math.cos(b),
    Math.sin(b),
    Math.cos(c),
    Math.sin(c),
  ];
  // Rz(roll) · Rx(tilt) · Ry(pan)
  const rows: [Vector, Vector, Vector] = [
    [cc * cb - sc * sa * sb, -sc * ca, cc * sb + sc * sa * cb],
    [sc * cb + cc * sa * sb, cc * ca, sc * sb - cc * sa * cb],
    [-ca * sb, sa, ca * cb],
  ];
  const across = shape.kind === 'flat' ? shape.widthMm : Math.min(shape.diameterMm, shape.widthMm);
  const needX = across * Math.abs(cc) + shape.heightMm * Math.abs(sc);
  const needY = across * Math.abs(sc) + shape.heightMm * Math.abs(cc);
  const f = focal * width;
  return {
    rows,
    f,
    distanceMm: (1.05 * f * Math.max(needX / width, needY / height)) / fill,
    cx: width * (0.5 + chance.between(-0.02, 0.02)),
    cy: height * (0.5 + chance.between(-0.02, 0.02)),
  };
}

/** x right, y down, z away; origin at the middle of the piece's face. */
function solidPlace(shape: PieceShape, xMm: number, yMm: number): { at: Vector; normal: Vector } {
  if (shape.kind === 'flat') return { at: [xMm, yMm, 0], normal: [0, 0, -1] };
  const r = shape.diameterMm / 2;
  const angle = xMm / r;
  return {
    at: [r * Math.sin(angle), yMm, r * (1 - Math.cos(angle))],
    normal: [Math.sin(angle), 0, -Math.cos(angle)],
  };
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export function placeOnPhoto(shape: PieceShape, camera: PieceCamera, seed: number): PlaceInPhoto {
  const { rows, f, distanceMm, cx, cy } = poseOf(shape, camera, seed);
  return (xMm, yMm) => {
    const { at, normal } = solidPlace(shape, xMm, yMm);
    const p: Vector = [dot(rows[0], at), dot(rows[1], at), dot(rows[2], at) + distanceMm];
    const n: Vector = [dot(rows[0], normal), dot(rows[1], normal), dot(rows[2], normal)];
    return { x: cx + (f * p[0]) / p[2], y: cy + (f * p[1]) / p[2], isSeen: dot(n, p) < 0 };
  };
}

/** The piece's unrolled surface (its ppi says its size) as the camera takes it, in linear light. */
export function photographPiece(
  surface: Picture,
  shape: PieceShape,
  camera: PieceCamera,
  seed: number,
): Picture {
  const { widthPixels: width, heightPixels: height } = camera;
  const { cast = [1, 1, 1], exposure = 0.85, slope = 0, vignetting = 0.15 } = camera;
  const { blurPixels = 0.7, noise = 0.008, ground = [0.16, 0.14, 0.11] } = camera;
  const { rows, f, distanceMm, cx, cy } = poseOf(shape, camera, seed);
  const chance = chanceOf(seed + 1);
  const perMm = surface.ppi / 25.4;
  const shrink = (perMm * distanceMm) / f;
  const column = (i: 0 | 1 | 2): Vector => [rows[0][i], rows[1][i], rows[2][i]];
  const [ex, ey, ez] = [column(0), column(1), column(2)];
  // Camera's place in the piece's frame: −Rᵀ·(0, 0, distance).
  const eye: Vector = [-ex[2] * distanceMm, -ey[2] * distanceMm, -ez[2] * distanceMm];
  const r = shape.kind === 'mug' ? shape.diameterMm / 2 : 0;
  const seen = warped(
    blurred(surface, Math.max(0, 0.5 * (shrink - 0.6))),
    { width, height, ppi: 72 },
    (x, y) => {
      const ray: Vector = [(x - cx) / f, (y - cy) / f, 1];
      const d: Vector = [dot(ex, ray), dot(ey, ray), dot(ez, ray)];
      let along = -eye[2] / d[2];
      if (shape.kind === 'mug') {
        // |(X, Z − r)| = r, the nearer of the two.
        const [ox, oz] = [eye[0], eye[2] - r];
        const [qa, qb, qc] = [d[0] ** 2 + d[2] ** 2, ox * d[0] + oz * d[2], ox * ox + oz * oz - r * r];
        const root = qb * qb - qa * qc;
        if (root < 0) return [-1, -1];
        along = (-qb - Math.sqrt(root)) / qa;
      }
      const px = eye[0] + along * d[0];
      const pz = eye[2] + along * d[2];
      const xMm = shape.kind === 'mug' ? r * Math.atan2(px, r - pz) : px;
      return [surface.width / 2 + xMm * perMm, surface.height / 2 + (eye[1] + along * d[1]) * perMm];
    },
    (x, y) => {
      const grain = 1 + 0.12 * Math.sin(y / 19 + 3 * Math.sin(x / 230));
      return [ground[0] * grain, ground[1] * grain, ground[2] * grain];
    },
  );
  const photo = blurred(seen, blurPixels);
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 3) {
      const off2 = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / ((width ** 2 + height ** 2) / 4);
      const light = exposure * (1 - vignetting * off2) * (1 - slope * (x / width - 0.5));
      for (let c = 0; c < 3; c += 1) {
        const v = photo.data[at + c]! * light * cast[c]!;
        const grain = (noise * Math.sqrt(Math.max(v, 0.02)) + 0.002) * chance.normal();
        photo.data[at + c] = Math.min(1, Math.max(0, v + grain));
      }
    }
  }
  return photo;
}
