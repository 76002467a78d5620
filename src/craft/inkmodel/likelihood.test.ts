import { expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { channelMeans, channelVariances, conditionChannel, leaveOneOut } from './channel-process.js';
import { pointSize } from './kernel.js';
import { negativeLogPosterior } from './likelihood.js';
import { pointsOf } from './model.js';
import type { ChannelParameters } from './types.js';

const count = 24;
const random = createRandom(12);
const points = pointsOf(
  Float64Array.from({ length: 3 * count }, () => random.uniform()),
  null,
).points;
const y = Float64Array.from({ length: count }, (_, i) => 40 * points[pointSize * i]! + 5 * random.normal());
const multiple = Float64Array.from({ length: count }, (_, i) => 1 + (i % 3));
const trend = { trendSd: 20, guideTrendSd: 3 };
const parameters: ChannelParameters = {
  kernel: { reach: [0.8, 1.1, 0.7, 0.5, 0.6, 0.9], variance: [4, 2, 6, 3], ...trend },
  noiseSd: 0.4,
};

it('the gradient of the likelihood is the slope of the likelihood', () => {
  const f = negativeLogPosterior(points, count, y, multiple, trend);
  const theta = Float64Array.of(-0.2, 0.1, -0.3, -0.6, -0.4, 0.1, 1.2, 0.5, 1.5, 0.8, -0.5);
  const gradient = new Float64Array(theta.length);
  f(theta, gradient);
  const other = new Float64Array(theta.length);
  const step = 1e-5;
  theta.forEach((_, q) => {
    const up = theta.slice();
    const down = theta.slice();
    up[q] = up[q]! + step;
    down[q] = down[q]! - step;
    const slope = (f(up, other) - f(down, other)) / (2 * step);
    expect(Math.abs(gradient[q]! - slope)).toBeLessThan(1e-4 * Math.max(1, Math.abs(slope)));
  });
});

it('what the others say of a patch is what a process without it says (Rasmussen & Williams 2006, 5.4.2)', () => {
  const whole = leaveOneOut(conditionChannel(parameters, points, count, y, multiple));
  const without = (v: Float64Array, out: number, size: number): Float64Array =>
    v.filter((_, i) => Math.floor(i / size) !== out);
  for (const out of [0, 7, 23]) {
    const rest = conditionChannel(
      parameters,
      without(points, out, pointSize),
      count - 1,
      without(y, out, 1),
      without(multiple, out, 1),
    );
    const at = points.slice(out * pointSize, (out + 1) * pointSize);
    expect(whole.residual[out]).toBeCloseTo(y[out]! - channelMeans(rest, at, 1)[0]!, 7);
    const reading = channelVariances(rest, at, 1)[0]! + 0.4 ** 2 * multiple[out]!;
    expect(whole.variance[out]).toBeCloseTo(reading, 7);
  }
});

it('without noise the process goes through its patches', () => {
  const exact = conditionChannel({ ...parameters, noiseSd: 1e-4 }, points, count, y, multiple);
  channelMeans(exact, points, count).forEach((v, i) => {
    expect(v).toBeCloseTo(y[i]!, 3);
  });
  expect(Math.max(...channelVariances(exact, points, count))).toBeLessThan(1e-4);
});
