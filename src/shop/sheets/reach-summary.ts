import type { SheetProposal } from '#contract';
import { formatHex } from '#craft/colour';
import { lookUpReach, type ReachTable, reachDeltaE00, reachThresholdDeltaE00 } from '#craft/icc';
import type { PieceSample } from '#shop/render';

export interface ReachSummary {
  /** Share of the sample's pixels further than the threshold from what the path reaches, 0..1. */
  readonly share: number;
  readonly colours: SheetProposal['colour']['unreachable'];
}

/** How finely colours are told apart when they are counted: 16 steps a channel. */
const stepsPerChannel = 16;
const mostColours = 6;

/** Counts the pixels of a small copy of the piece whose colour the path cannot reach, and names the commonest. */
export function summariseReach(sample: PieceSample, table: ReachTable): ReachSummary {
  const channels = sample.sourceChannels;
  const pixels = sample.widthPixels * sample.heightPixels;
  const bins = new Map<number, { pixels: number; sum: Float64Array }>();
  let unreachable = 0;
  const encoded = new Float64Array(4);
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    for (let channel = 0; channel < channels; channel += 1)
      encoded[channel] = sample.source[pixel * channels + channel]! / 255;
    if (reachDeltaE00(table, encoded[0]!, encoded[1]!, encoded[2]!, encoded[3]!) <= reachThresholdDeltaE00)
      continue;
    unreachable += 1;
    let key = 0;
    for (let channel = 0; channel < channels; channel += 1) {
      key =
        key * stepsPerChannel +
        Math.min(stepsPerChannel - 1, Math.floor(encoded[channel]! * stepsPerChannel));
    }
    const bin = bins.get(key) ?? { pixels: 0, sum: new Float64Array(4) };
    bin.pixels += 1;
    for (let channel = 0; channel < channels; channel += 1)
      bin.sum[channel] = bin.sum[channel]! + encoded[channel]!;
    bins.set(key, bin);
  }
  const colours = [...bins.values()]
    .sort((a, b) => b.pixels - a.pixels)
    .slice(0, mostColours)
    .map((bin) => {
      const [c0, c1, c2, c3] = [...bin.sum].map((sum) => sum / bin.pixels) as [
        number,
        number,
        number,
        number,
      ];
      const reach = lookUpReach(table, c0, c1, c2, c3);
      return {
        wantedHex: formatHex(reach.wantedSrgb8),
        nearestHex: formatHex(reach.nearestSrgb8),
        deltaE00: reach.deltaE00,
        share: bin.pixels / pixels,
      };
    });
  return { share: pixels === 0 ? 0 : unreachable / pixels, colours };
}
