import { beforeAll, describe, expect, it } from 'vitest';
import { type AlignedPair, gainAt, placeInPhoto } from '#craft/register';
import {
  type ArtworkName,
  artworkOf,
  faultyPhoto,
  type Picture,
  type Piece,
  type PieceFault,
  toBytes,
} from '../../../tests/simulator/index.js';
import { loadOpenCv, type OpenCv } from './open-cv.js';
import { type RegisterTask, registerPixels } from './register-pixels.js';
import { colourOfSize, type RgbBytes } from './register-sizes.js';

let cv: OpenCv;
beforeAll(async () => {
  ({ cv } = await loadOpenCv());
});

const bytesOf = (picture: Picture): RgbBytes => ({
  width: picture.width,
  height: picture.height,
  data: new Uint8Array(toBytes(picture)),
});
const even = (width: number, height: number, value: number): RgbBytes => ({
  width,
  height,
  data: new Uint8Array(3 * width * height).fill(value),
});

const widthMm = 150;
const task: RegisterTask = {
  artworkWidthMm: widthMm,
  diameterMm: null,
  surface: 'unknown',
  corners: null,
  longSidePixels: 1000,
};
const camera = {
  widthPixels: 1200,
  heightPixels: 900,
  tilt: 9,
  pan: -11,
  roll: 7,
  slope: 0.25,
  cast: [1, 0.94, 0.8],
} as const;
/** exposure × middle of the coating, of the simulated camera and piece. */
const whiteSeen = 0.85 * 0.87 * 0.94;

/** Pieces are photographed with seeds that nothing was tuned on. */
async function taken(name: ArtworkName, faults: readonly PieceFault[], seed: number, mugMm?: number) {
  const artwork = await artworkOf(name, widthMm, 5);
  const heightMm = artwork.height / 5 + 16;
  const piece: Piece = mugMm
    ? { kind: 'mug', diameterMm: mugMm, heightMm, widthMm: Math.PI * mugMm - 20 }
    : { kind: 'flat', widthMm: widthMm + 16, heightMm };
  return { artwork, ...faultyPhoto({ artwork, faults, piece, camera, seed }) };
}

/** Distances in pixels of the pair between where places are said to lie in the photo and where they do, sorted. */
function errorsOf(pair: AlignedPair, { artwork, truth }: Awaited<ReturnType<typeof taken>>): number[] {
  const errors: number[] = [];
  for (let j = 1; j < 20; j += 1) {
    for (let i = 1; i < 20; i += 1) {
      const x = Math.floor((i * pair.widthPixels) / 20);
      const y = Math.floor((j * pair.heightPixels) / 20);
      if (!pair.valid[y * pair.widthPixels + x]) continue;
      const scale = artwork.width / pair.widthPixels;
      const is = truth.placeInPhoto(x * scale, y * scale);
      const said = placeInPhoto(pair.map, x, y);
      errors.push(Math.hypot(said.x - is.x, said.y - is.y) / pair.photoPixelsPerPixel);
    }
  }
  return errors.sort((a, b) => a - b);
}

describe('a photo laid over its artwork', () => {
  it('a flat piece of a picture never tuned on, faded at the corners and streaked: within 0.2 mm', async () => {
    const shot = await taken(
      'nagasaki-boats',
      [
        { kind: 'fade', where: 'corners', share: 0.4 },
        { kind: 'white lines', direction: 'across', everyMm: 12, widthMm: 0.4, share: 0.7 },
      ],
      7001,
    );
    const pair = await registerPixels(cv, bytesOf(shot.artwork), bytesOf(shot.picture), 1, task);
    const errors = errorsOf(pair, shot);
    expect(pair).toMatchObject({ isReversed: false, foundBy: 'features', map: { kind: 'flat' } });
    expect(errors.length).toBeGreaterThan(340);
    expect(errors[errors.length >> 1]).toBeLessThan(0.4);
    expect(errors.at(-1)! / pair.pixelsPerMm!).toBeLessThan(0.2);
    // What it says of itself is of the size of what it is.
    expect(pair.residualMm).toBeLessThan(0.15);
    expect(Math.abs(Math.log(gainAt(pair.lighting, pair, 500, 400)[1] / whiteSeen))).toBeLessThan(0.15);
  });

  it('a reversed piece is found to be so', async () => {
    const shot = await taken('allium-oreophilum', [{ kind: 'reversed' }], 7002);
    const pair = await registerPixels(cv, bytesOf(shot.artwork), bytesOf(shot.picture), 1, task);
    expect(pair.isReversed).toBe(true);
    expect(pair.remarks[0]).toMatch(/left for right/);
    expect(errorsOf(pair, shot).at(-1)! / pair.pixelsPerMm!).toBeLessThan(0.2);
  });

  it('a mug is found to be round without being told, and unrolled', async () => {
    const shot = await taken('nagasaki-boats', [], 7003, 82);
    const pair = await registerPixels(cv, bytesOf(shot.artwork), bytesOf(shot.picture), 1, task);
    const errors = errorsOf(pair, shot);
    expect(pair.map.kind).toBe('cylinder');
    expect(errors.length).toBeGreaterThan(120);
    expect(errors[errors.length >> 1]! / pair.pixelsPerMm!).toBeLessThan(0.15);
    expect(errors[Math.floor(0.95 * errors.length)]! / pair.pixelsPerMm!).toBeLessThan(0.4);
  });

  it('other artwork is refused, by features and by corners alike', async () => {
    const shot = await taken('allium-oreophilum', [], 7004);
    const other = bytesOf(await artworkOf('nagasaki-boats', widthMm, 5));
    const photo = bytesOf(shot.picture);
    const refused = { code: 'photo.unmatched' };
    await expect(registerPixels(cv, other, photo, 1, task)).rejects.toMatchObject(refused);
    const { width, height } = shot.artwork;
    const corner = (x: number, y: number) => shot.truth.placeInPhoto(x, y);
    const corners = [corner(0, 0), corner(width, 0), corner(width, height), corner(0, height)] as const;
    await expect(registerPixels(cv, other, photo, 1, { ...task, corners })).rejects.toMatchObject(refused);
    // The right artwork from corners some pixels off comes to the same place as ever.
    const near = corners.map(({ x, y }, i) => ({
      x: x + [4, -5, 3, -4][i]!,
      y: y + 3,
    })) as unknown as typeof corners;
    const pair = await registerPixels(cv, bytesOf(shot.artwork), photo, 1, { ...task, corners: near });
    expect(pair.foundBy).toBe('corners');
    expect(errorsOf(pair, shot).at(-1)! / pair.pixelsPerMm!).toBeLessThan(0.2);
  });

  it.each([130, 61])('made %i pixels wide, a picture stays where it was', async (width) => {
    const bell = (x: number): number => 250 * Math.exp(-0.5 * ((x - 40) / 8) ** 2);
    const data = Uint8Array.from({ length: 3 * 100 * 20 }, (_, i) => bell((Math.floor(i / 3) % 100) + 0.5));
    const made = await colourOfSize({ width: 100, height: 20, data }, width);
    let [sum, moment] = [0, 0];
    for (let x = 0; x < made.width; x += 1) {
      const light = made.data[3 * (5 * made.width + x)]!;
      sum += light;
      moment += light * (x + 0.5);
    }
    expect(moment / sum / (width / 100)).toBeCloseTo(40, 1);
  });

  it('photos that show nothing are refused in a sentence', async () => {
    const artwork = bytesOf(await artworkOf('crest', widthMm, 3));
    for (const [photo, said] of [
      [even(800, 600, 0), /almost black/],
      [even(800, 600, 140), /one even tone/],
      [even(200, 150, 140), /too few to see/],
    ] as const) {
      await expect(registerPixels(cv, artwork, photo, 1, task)).rejects.toMatchObject({
        code: 'scan.unclear',
        message: expect.stringMatching(said),
      });
    }
    await expect(registerPixels(cv, even(300, 300, 200), artwork, 1, task)).rejects.toMatchObject({
      code: 'photo.unmatched',
    });
  });
});
