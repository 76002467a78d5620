export interface TestValue {
  /** Expected worth of the best act with nothing more known. */
  readonly without: number;
  /** The same once the answer is known, the test's own cost not counted. */
  readonly with: number;
  /** Expected value of the sample: with − without, never below 0 where worth() is that of a best choice. */
  readonly gain: number;
  /** Expected gain if the truth itself were told. */
  readonly gainOfTruth: number;
  /** What answer and truth tell of each other, bit. */
  readonly bits: number;
  /** Chance of each answer. */
  readonly answers: readonly number[];
}

/**
 * Value of information (Raiffa, Decision Analysis, 1968; Howard 1966).
 * @param chances of each hypothesis, sum 1
 * @param likelihoods [answer][hypothesis], each hypothesis's column sums to 1
 * @param worth of acting as well as one can under given chances of the hypotheses
 */
export function valueOfTest(
  chances: ArrayLike<number>,
  likelihoods: readonly ArrayLike<number>[],
  worth: (chances: Float64Array) => number,
  wantsTruth = true,
): TestValue {
  const size = chances.length;
  const without = worth(Float64Array.from(chances));
  const answers: number[] = [];
  let withAnswer = 0;
  let bits = 0;
  for (const likelihood of likelihoods) {
    const after = new Float64Array(size);
    let total = 0;
    for (let h = 0; h < size; h += 1) {
      after[h] = chances[h]! * likelihood[h]!;
      total += after[h]!;
    }
    answers.push(total);
    if (total <= 0) continue;
    for (let h = 0; h < size; h += 1) {
      if (after[h]! > 0) bits += after[h]! * Math.log2(likelihood[h]! / total);
      after[h] = after[h]! / total;
    }
    withAnswer += total * worth(after);
  }
  let truth = 0;
  for (let h = 0; wantsTruth && h < size; h += 1) {
    if (chances[h]! > 0)
      truth += chances[h]! * worth(Float64Array.from({ length: size }, (_, i) => (i === h ? 1 : 0)));
  }
  return {
    without,
    with: withAnswer,
    gain: withAnswer - without,
    gainOfTruth: wantsTruth ? truth - without : Number.NaN,
    bits,
    answers,
  };
}
