import { describe, expect, it } from 'vitest';
import { standingWords } from './standing-words.js';

const path = (grade: 'B' | 'E', meanDeltaE00: number) =>
  ({
    origin: grade === 'E' ? 'by-eye' : 'measured',
    description: '',
    measurement: {
      grade,
      expectedError: { meanDeltaE00, p95DeltaE00: 2 * meanDeltaE00, restsOn: 'calibration' },
    },
  }) as never;

describe('the sentence on top of a path', () => {
  it('says the expected error and what it looks like, then the grade', () => {
    const { sentence, more } = standingWords(path('B', 1.44));
    // 1.4 lies between half of observers seeing (0.8) and half putting up with it (1.8); see words/differences.ts.
    expect(sentence).toBe('Colours come out within 1.4\u00a0ΔE00 on average; that is hardly seen.');
    expect(more[0]).toMatch(/^Grade B · calibrated scanner\. /);
    expect(more[1]).toContain('95\u00a0% of colours within 2.9\u00a0ΔE00');
  });
  it('does not let picks by eye pass for measured colours', () => {
    expect(standingWords(path('E', 8.5)).sentence).toMatch(/^Greys were judged by eye/);
  });
  it('promises nothing for a profile from elsewhere', () => {
    expect(standingWords({ origin: 'imported', description: '' }).sentence).toContain('not known here');
  });
});
