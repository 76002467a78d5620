import { type Chance, chanceOf } from './chance.js';
import { blurred, warped } from './optics.js';
import type { Picture } from './picture.js';

export interface Camera {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Degrees: about the picture's horizontal axis, its vertical axis, and in its plane. */
  readonly tilt?: number;
  readonly pan?: number;
  readonly roll?: number;
  /** Share of the frame that the sheet fills. */
  readonly fill?: number;
  /** Focal length over frame width; a phone's main camera is about 0.75. */
  readonly focal?: number;
  readonly cast?: readonly [number, number, number];
  /** Light lost at the corners, 0..1. */
  readonly vignetting?: number;
  /** A lamp's reflection: strength of a soft white blob. */
  readonly glare?: number;
  /** A shadow's edge over the sheet: 0 none, 0.6 = 60 % darker. */
  readonly shadow?: number;
  readonly blurPixels?: number;
  readonly noise?: number;
  readonly exposure?: number;
  readonly seed: number;
}

interface View {
  /** Focal length and distance of the sheet's middle, in pixels of the photograph and of the sheet. */
  readonly f: number;
  readonly distance: number;
  readonly rotation: Turn;
  readonly offsetX: number;
  readonly offsetY: number;
}

function viewOf(paper: { width: number; height: number }, camera: Camera, chance: Chance): View {
  const { widthPixels: width, heightPixels: height } = camera;
  const { tilt = 0, pan = 0, roll = 0, fill = 0.85, focal = 0.75 } = camera;
  const f = focal * width;
  // Far enough that the turned sheet fills the asked share.
  const turned = Math.abs(Math.cos((roll * Math.PI) / 180));
  const crossed = Math.abs(Math.sin((roll * Math.PI) / 180));
  const needX = (paper.width * turned + paper.height * crossed) / (width * fill);
  const needY = (paper.width * crossed + paper.height * turned) / (height * fill);
  const [offsetX, offsetY] = [chance.between(-0.02, 0.02) * width, chance.between(-0.02, 0.02) * height];
  const distance = f * Math.max(needX, needY) * 1.08;
  return { f, distance, rotation: rotate(tilt, pan, roll), offsetX, offsetY };
}

/** Where a place on the sheet (its pixels) lies in `photograph`'s picture of it. */
export function placeInPhotograph(
  paper: { readonly width: number; readonly height: number },
  camera: Camera,
): (x: number, y: number) => [number, number] {
  const { f, distance, rotation: r, offsetX, offsetY } = viewOf(paper, camera, chanceOf(camera.seed));
  return (x, y) => {
    const [u, v] = [x - paper.width / 2, y - paper.height / 2];
    const [px, py, pz] = [0, 1, 2].map((i) => r[i as 0]![0]! * u + r[i as 0]![1]! * v) as [
      number,
      number,
      number,
    ];
    const along = f / (pz + distance);
    return [camera.widthPixels / 2 + offsetX + along * px, camera.heightPixels / 2 + offsetY + along * py];
  };
}

/** A phone: pinhole perspective of the flat sheet on a table, then light, softness and noise. */
export function photograph(paper: Picture, camera: Camera): Picture {
  const { widthPixels: width, heightPixels: height } = camera;
  const {
    cast = [1, 1, 1],
    vignetting = 0.25,
    glare = 0,
    shadow = 0,
    blurPixels = 0.8,
    noise = 0.01,
    exposure = 0.9,
    seed,
  } = camera;
  const chance = chanceOf(seed);
  const { f, distance, rotation, offsetX, offsetY } = viewOf(paper, camera, chance);
  const shrink = distance / f;
  const soft = blurred(paper, Math.max(0, 0.5 * (shrink - 0.6)));
  const table = chance.between(0.05, 0.35);
  const seen = warped(
    soft,
    { width, height, ppi: 72 },
    (x, y) => {
      // The ray (x, y, f) cut with the plane R·(u, v, 0) + (0, 0, d).
      const ray = [x - width / 2 - offsetX, y - height / 2 - offsetY, f] as const;
      const normal = [rotation[0][2], rotation[1][2], rotation[2][2]] as const;
      const along = (normal[2] * distance) / (normal[0] * ray[0] + normal[1] * ray[1] + normal[2] * ray[2]);
      const p = [along * ray[0], along * ray[1], along * ray[2] - distance] as const;
      const u = rotation[0][0] * p[0] + rotation[1][0] * p[1] + rotation[2][0] * p[2];
      const v = rotation[0][1] * p[0] + rotation[1][1] * p[1] + rotation[2][1] * p[2];
      return [paper.width / 2 + u, paper.height / 2 + v];
    },
    (x, y) => {
      const grain = table * (1 + 0.15 * Math.sin(y / 17 + 3 * Math.sin(x / 260)));
      return [grain * 1.15, grain, grain * 0.8];
    },
  );
  const gx = chance.between(0.25, 0.75) * width;
  const gy = chance.between(0.25, 0.75) * height;
  const gr = chance.between(0.06, 0.14) * width;
  const edge = chance.between(0.3, 0.7) * width;
  const lean = chance.between(-0.5, 0.5);
  const lit = blurred(seen, blurPixels);
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 3) {
      const r2 = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / ((width ** 2 + height ** 2) / 4);
      const shade = 1 - shadow / (1 + Math.exp(-(x - edge - lean * (y - height / 2)) / 12));
      const light = exposure * (1 - vignetting * r2) * shade;
      const blob = glare * Math.exp(-((x - gx) ** 2 + (y - gy) ** 2) / (2 * gr ** 2));
      for (let c = 0; c < 3; c += 1) {
        const v = lit.data[at + c]! * light * cast[c]! + blob;
        lit.data[at + c] = Math.min(
          1,
          Math.max(0, v + (noise * Math.sqrt(Math.max(v, 0.02)) + 0.002) * chance.normal()),
        );
      }
    }
  }
  return lit;
}

function rotate(tilt: number, pan: number, roll: number): Turn {
  const [a, b, c] = [tilt, pan, roll].map((degrees) => (degrees * Math.PI) / 180) as [number, number, number];
  const x = [
    [1, 0, 0],
    [0, Math.cos(a), -Math.sin(a)],
    [0, Math.sin(a), Math.cos(a)],
  ];
  const y = [
    [Math.cos(b), 0, Math.sin(b)],
    [0, 1, 0],
    [-Math.sin(b), 0, Math.cos(b)],
  ];
  const z = [
    [Math.cos(c), -Math.sin(c), 0],
    [Math.sin(c), Math.cos(c), 0],
    [0, 0, 1],
  ];
  return times(x, times(y, z)) as unknown as Turn;
}

type Row = readonly [number, number, number];
type Turn = readonly [Row, Row, Row];

const times = (a: number[][], b: number[][]): number[][] =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, v, k) => sum + v * b[k]![j]!, 0)));
