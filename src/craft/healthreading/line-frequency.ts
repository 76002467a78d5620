/**
 * The frequency near an expected one at which a profile swings most, and how far: the largest value of its Fourier
 * integral under a Hann window, followed to its top by golden section.
 *
 * @param values evenly spaced. @returns cycles a unit of `step`, and the amplitude of that harmonic
 */
export function lineFrequency(
  values: Float64Array,
  step: number,
  expected: number,
  reachShare = 0.06,
): { frequency: number; amplitude: number } {
  const n = values.length;
  const window = Float64Array.from(
    { length: n },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n),
  );
  const whole = window.reduce((sum, w) => sum + w, 0);
  const mean = values.reduce((sum, v, i) => sum + v * window[i]!, 0) / whole;
  const swing = (frequency: number): number => {
    let [re, im] = [0, 0];
    const turn = 2 * Math.PI * frequency * step;
    for (let i = 0; i < n; i += 1) {
      const v = window[i]! * (values[i]! - mean);
      re += v * Math.cos(turn * i);
      im += v * Math.sin(turn * i);
    }
    return (2 * Math.hypot(re, im)) / whole;
  };
  let best = { frequency: expected, amplitude: -1 };
  const tries = 24;
  for (let k = -tries; k <= tries; k += 1) {
    const frequency = expected * (1 + (k / tries) * reachShare);
    const amplitude = swing(frequency);
    if (amplitude > best.amplitude) best = { frequency, amplitude };
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [
    best.frequency - (expected * reachShare) / tries,
    best.frequency + (expected * reachShare) / tries,
  ];
  for (let round = 0; round < 30; round += 1) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (swing(a) > swing(b)) high = b;
    else low = a;
  }
  const frequency = (low + high) / 2;
  return { frequency, amplitude: swing(frequency) };
}
