import { describe, expect, it } from 'vitest';
import type { SizeReading } from './size.js';
import { type Evidence, judge } from './verdict.js';

const size = (across: number, along: number, uncertainty = 0.12): SizeReading => ({
  known: true,
  ppi: 300,
  acrossPercent: across,
  alongPercent: along,
  acrossUncertainty: uncertainty,
  alongUncertainty: uncertainty,
});
const evidence = (part: Partial<Evidence>): Evidence => ({
  subject: 'paper',
  sheetId: '6818G18014',
  fileMirrored: true,
  seenMirrored: true,
  size: size(100, 100),
  markersFound: 4,
  markersExpected: 4,
  routeStrip: [],
  fileFlipped: false,
  ...part,
});

describe('the verdict', () => {
  it.each([
    // subject, file mirrored, seen mirrored → verdict. A press turns left and right over once (common practice).
    ['paper', true, true, 'right', /Mirrored once/],
    ['paper', true, false, 'mirrored-twice', /Turn mirroring off in the driver/],
    ['paper', false, false, 'not-mirrored', /Turn mirroring on in the driver/],
    ['paper', false, true, 'right', /Mirrored once/],
    ['piece', true, false, 'right', /reads the right way/],
    ['piece', true, true, 'mirrored-twice', /Turn mirroring off in the driver/],
    ['piece', false, true, 'not-mirrored', /Turn mirroring on in the driver/],
    ['piece', false, false, 'right', /reads the right way/],
  ] as const)(
    '%s, file mirrored %s, seen mirrored %s: %s',
    (subject, fileMirrored, seenMirrored, verdict, words) => {
      const reading = judge(evidence({ subject, fileMirrored, seenMirrored }));
      expect(reading.mirroring).toBe(verdict);
      expect(reading.sentences.join(' ')).toMatch(words);
    },
  );

  it('knows the wrong way round without the code, but not whose fault it is', () => {
    const lost = { sheetId: null, fileMirrored: null, size: { known: false, why: 'no-code' } } as const;
    expect(judge(evidence({ ...lost, seenMirrored: true })).mirroring).toBe('right');
    const wrong = judge(evidence({ ...lost, seenMirrored: false }));
    expect(wrong.mirroring).toBe('unknown');
    expect(wrong.sentences[0]).toMatch(/wrong number of times/);
    expect(wrong.sentences.join(' ')).toMatch(/Do not press/);
  });

  it.each([
    [100, 100, 'right'],
    [100.4, 99.7, 'right'],
    [97, 97, 'wrong'],
    [94.3, 94.3, 'wrong'],
    [103.2, 103.2, 'wrong'],
    [97, 100, 'stretched'],
    [100, 98.9, 'stretched'],
  ] as const)('%s %% across and %s %% along is %s', (across, along, verdict) => {
    const reading = judge(evidence({ size: size(across, along) }));
    expect(reading.scale).toBe(verdict);
    expect(reading.scalePercent).toMatchObject({ across, along });
    if (verdict !== 'right') expect(reading.sentences.join(' ')).toMatch(/Print at 100 %/);
  });

  it('does not blame the print for what the measurement cannot hold', () => {
    expect(judge(evidence({ size: size(101.5, 100, 2) })).scale).toBe('right');
    expect(judge(evidence({ subject: 'piece', seenMirrored: false, size: size(99, 99) })).scale).toBe(
      'right',
    );
  });

  it('says why the size is not known', () => {
    for (const why of [
      'camera',
      'no-density',
      'screen-density',
      'not-flat',
      'too-few-marks',
      'no-code',
    ] as const) {
      const reading = judge(evidence({ size: { known: false, why } }));
      expect(reading.scale).toBe('unknown');
      expect(reading.scalePercent).toBeNull();
      expect(reading.sentences[1]).toMatch(/^The size cannot be told/);
    }
  });
});
