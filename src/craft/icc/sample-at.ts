import { clipUnit } from './clip.js';

/** Linear between samples that stand evenly over 0..1; clips. */
export function sampleAt(samples: Float32Array | Float64Array, v: number): number {
  const last = samples.length - 1;
  const at = clipUnit(v) * last;
  const i = Math.min(Math.floor(at), last - 1);
  const low = samples[i]!;
  return low + (samples[i + 1]! - low) * (at - i);
}
