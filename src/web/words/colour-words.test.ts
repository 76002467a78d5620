import { describe, expect, it } from 'vitest';
import { differenceWords, labText, signed } from './differences.js';
import { gradeText, trustText } from './grades.js';

describe('differences in words', () => {
  // Limits 0.8, 1.8, 3.6, 5.4: Paravina et al. 2015, 2019; ISO/TR 28642:2016 (from memory). A limit belongs to the step above.
  it.each([
    [0, 'not seen'],
    [0.79, 'not seen'],
    [0.8, 'hardly seen'],
    [1.8, 'slightly different'],
    [3.6, 'clearly different'],
    [5.4, 'another colour'],
    [60, 'another colour'],
  ])('%d is %s', (delta, words) => expect(differenceWords(delta)).toBe(words));
  it('writes Lab with true minus signs and never a minus nought', () => {
    expect(labText([52.4, -3.2, -0.2])).toBe('L*\u00a052, a*\u00a0\u22123, b*\u00a00');
    expect(signed(-0.04, 1)).toBe('0.0');
  });
});

describe('grades in words', () => {
  const measurement = (grade: 'A' | 'B') => ({
    grade,
    expectedError: { meanDeltaE00: 1.44, p95DeltaE00: 3, restsOn: 'calibration' as const },
  });
  it('stand by themselves', () => {
    expect(gradeText('B')).toBe('B · calibrated scanner');
    expect(trustText({ origin: 'measured', measurement: measurement('B') as never })).toBe(
      'B · calibrated scanner, 1.4\u00a0ΔE00 on average',
    );
    expect(trustText({ origin: 'imported' })).toBe('imported profile, not checked here');
  });
});
