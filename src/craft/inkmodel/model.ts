import { deltaE00, labFromSrgb, type Triple, type Triple3 } from '#craft/colour';
import { type ChannelProcess, channelMeans, channelVariances, conditionChannel } from './channel-process.js';
import { pointSize } from './kernel.js';
import { liftNeutral } from './neutral-axis.js';
import type { InkModel, InkModelData, InkPrediction } from './types.js';

/** Mean of a normal vector's length over its root mean square, three equal coordinates (Maxwell: 2√(2/π)/√3). */
const meanOverRms = 0.9213;

/** The working model from its data: conditions the three processes again, to the same numbers every time. */
export const makeInkModel = (data: InkModelData): InkModel => assembleInkModel(data, conditionAll(data));

/** The three processes on the data's patches, and the model adapted from; the costly part. */
export interface Conditioned {
  readonly channels: readonly ChannelProcess[];
  readonly base: InkModel | null;
}

export function conditionAll(data: InkModelData): Conditioned {
  const base = data.base === null ? null : makeInkModel(data.base);
  const points = pointsOf(Float64Array.from(data.rgb.flat()), base);
  const multiple = Float64Array.from(data.noiseMultiple);
  const channels = data.channels.map((channel, j) =>
    conditionChannel(channel, points.points, data.rgb.length, targets(data.lab, points.base, j), multiple),
  );
  return { channels, base };
}

export function assembleInkModel(data: InkModelData, { channels, base }: Conditioned): InkModel {
  function predictLab(rgb: Float64Array): Float64Array {
    const total = rgb.length / 3;
    const at = pointsOf(rgb, base);
    const out = new Float64Array(3 * total);
    for (let j = 0; j < 3; j += 1) {
      const means = channelMeans(channels[j]!, at.points, total);
      for (let i = 0; i < total; i += 1) out[3 * i + j] = means[i]! + (at.base?.[3 * i + j] ?? 0);
    }
    if (data.neutralLift.length > 0) liftNeutral(data.neutralLift, at.points, out);
    return out;
  }

  function predict(rgb: readonly Triple[]): InkPrediction[] {
    const flat = Float64Array.from(rgb.flat());
    const lab = predictLab(flat);
    const at = pointsOf(flat, base);
    const variances = channels.map((process) => channelVariances(process, at.points, rgb.length));
    return rgb.map((_, i) => {
      const colour: Triple3 = [lab[3 * i]!, lab[3 * i + 1]!, lab[3 * i + 2]!];
      const sdLab = variances.map((v, j) =>
        Math.hypot(data.widening[j]! * Math.sqrt(v[i]!), data.roughnessSd[j]!),
      ) as Triple3;
      return { lab: colour, sdLab, expectedDeltaE00: expectedDifference(colour, sdLab) };
    });
  }

  const noiseSd = data.channels.map((channel, j) =>
    Math.sqrt(channel.noiseSd ** 2 - data.roughnessSd[j]! ** 2),
  ) as Triple3;
  return { data, predict, predictLab, noiseSd, outliers: data.outliers };
}

/** What is learnt: Lab, or how it differs from the base model's. */
export function targets(lab: readonly Triple[], base: Float64Array | null, j: number): Float64Array {
  return Float64Array.from(lab, (colour, i) => colour[j]! - (base?.[3 * i + j] ?? 0));
}

/**
 * Device values (count × 3) as the kernel's points (count × 6), and the base model's Lab where there is one.
 * Guide coordinates are Lab in hundreds: of sRGB, since drivers take RGB for that, or of the base model.
 */
export function pointsOf(
  rgb: Float64Array,
  base: InkModel | null,
): { points: Float64Array; base: Float64Array | null } {
  const count = rgb.length / 3;
  const points = new Float64Array(count * pointSize);
  const clipped = rgb.map((v) => Math.min(1, Math.max(0, v)));
  const baseLab = base?.predictLab(clipped) ?? null;
  for (let i = 0; i < count; i += 1) {
    const [r, g, b] = [clipped[3 * i]!, clipped[3 * i + 1]!, clipped[3 * i + 2]!];
    const guide =
      baseLab === null
        ? labFromSrgb([r, g, b])
        : ([baseLab[3 * i]!, baseLab[3 * i + 1]!, baseLab[3 * i + 2]!] as const);
    points.set([r, g, b, guide[0] / 100, guide[1] / 150, guide[2] / 150], i * pointSize);
  }
  return { points, base: baseLab };
}

/** CIEDE2000 is nearly a quadratic form over so small distances: the root of its mean, then the mean length. */
function expectedDifference(lab: Triple3, sd: Triple): number {
  let square = 0;
  for (let j = 0; j < 3; j += 1) {
    const shifted: Triple3 = [...lab];
    shifted[j] = shifted[j]! + sd[j]!;
    square += deltaE00(lab, shifted) ** 2;
  }
  return meanOverRms * Math.sqrt(square);
}
