import { linearToSrgb, srgbToLinear } from '#craft/colour';
import type { MarkFrame, Rgb8, RoutePatchName } from '#craft/sheet';
import { mapPoint, type PlaneMap } from './plane.js';

export interface RgbPicture {
  readonly width: number;
  readonly height: number;
  /** Three bytes a pixel, sRGB-encoded, row by row. */
  readonly data: Uint8Array;
}

export interface SeenPatch {
  readonly name: RoutePatchName;
  readonly printedRgb: Rgb8;
  /** Mean of the patch's middle, averaged in linear light without its darkest and lightest tenths. */
  readonly seenRgb: Rgb8;
}

const samplesAcross = 15;
/** The share of a patch that is looked at, so that edges and ink spread stay out. */
const middle = 0.6;
const dropped = 0.1;

/** Patches that lie wholly in the picture. */
export function readRouteStrip(picture: RgbPicture, frame: MarkFrame, toPicture: PlaneMap): SeenPatch[] {
  return frame.routeStrip.flatMap(({ name, rgb, rect }) => {
    const channels: [number[], number[], number[]] = [[], [], []];
    for (let i = 0; i < samplesAcross ** 2; i += 1) {
      const u = 0.5 + middle * (((i % samplesAcross) + 0.5) / samplesAcross - 0.5);
      const v = 0.5 + middle * ((Math.floor(i / samplesAcross) + 0.5) / samplesAcross - 0.5);
      const point = mapPoint(toPicture, { x: rect.xMm + u * rect.widthMm, y: rect.yMm + v * rect.heightMm });
      const x = Math.floor(point.x);
      const y = Math.floor(point.y);
      if (!(x >= 0 && y >= 0 && x < picture.width && y < picture.height)) return [];
      const at = (y * picture.width + x) * 3;
      channels.forEach((values, c) => {
        values.push(toLinear(picture.data[at + c]!));
      });
    }
    const seenRgb = channels.map((values) => fromLinear(trimmedMean(values))) as [number, number, number];
    return [{ name, printedRgb: rgb, seenRgb }];
  });
}

function trimmedMean(values: number[]): number {
  values.sort((a, b) => a - b);
  const drop = Math.floor(values.length * dropped);
  const kept = values.slice(drop, values.length - drop);
  return kept.reduce((sum, value) => sum + value, 0) / kept.length;
}

const toLinear = (byte: number): number => srgbToLinear(byte / 255);
const fromLinear = (v: number): number => Math.round(255 * linearToSrgb(v));
