import { describe, expect, it } from 'vitest';
import { checkSheet, type SheetCheck, standingSentence } from './index.js';
import { painted, subjectWith, type Wrong } from './test-subject.js';

const found = (wrong: Wrong): SheetCheck[] => checkSheet(subjectWith(wrong));
const codes = (wrong: Wrong): string[] => found(wrong).map(({ code }) => code);
const one = (wrong: Wrong, code: string): SheetCheck => {
  const check = found(wrong).find((c) => c.code === code);
  if (!check) throw new Error(`no ${code} among ${codes(wrong).join(', ')}`);
  return check;
};

describe('a sound sheet', () => {
  it('raises nothing', () => expect(codes({})).toEqual([]));
  it('stays silent on a photograph that covers everything', () => {
    expect(codes({ picture: painted(300, 300, () => [90, 120, 60]) })).toEqual([]);
  });
});

describe('resolution', () => {
  // Fill of 106 mm with bleed: p pixels give p / (106 / 25.4) ppi, so 626 give 150.004 and 625 give 149.76.
  it.each([
    [625, 'resolution.soft', 149.76],
    [626, 'resolution.modest', 150.0],
    [918, 'resolution.modest', 219.97],
  ])('%i pixels: %s', (pixels, code, ppi) => {
    const check = one({ pixels: [pixels, pixels] }, code);
    expect(check.value).toBeCloseTo(ppi, 2);
    expect(check.unit).toBe('ppi');
  });
  it('says nothing from 220 ppi on', () => expect(codes({ pixels: [919, 919] })).toEqual([]));
  it('says how many pixels would do', () => {
    // 106 mm at 220 ppi: 918.1, so 919 pixels.
    expect(one({ pixels: [500, 500] }, 'resolution.soft').remedy).toContain('919 pixels');
  });
});

describe('blank', () => {
  it('stops an uncoated one and cloth without polyester', () => {
    expect(one({ coating: 'none' }, 'blank.uncoated').level).toBe('stop');
    expect(one({ coating: 'fibre', polyesterPercent: 0 }, 'blank.uncoated').level).toBe('stop');
  });
  // Common practice: below about 65 % pressed colours are faded.
  it.each([
    [64, ['blank.little-polyester']],
    [65, []],
    [100, []],
  ])('cloth with %i %% polyester', (polyesterPercent, expected) => {
    expect(codes({ coating: 'fibre', polyesterPercent })).toEqual(expected);
  });
  it('asks for a polyester share that is not recorded', () => {
    expect(codes({ coating: 'fibre' })).toEqual(['blank.polyester-unknown']);
  });
});

describe('bleed', () => {
  it('tells each side that lacks it, and by how much', () => {
    // 2:1 artwork at 206 × 103 mm laid 52 mm left: its right edge at 103 − 52 = 51 mm, 1 mm past the trim, of 3 mm of
    // bleed; top and bottom at 51.5 mm, 1.5 mm past it.
    const check = one(
      { pixels: [4000, 2000], placement: { mode: 'free', scale: 2.06, offsetXMm: -52 } },
      'bleed.missing',
    );
    expect(check.detail).toContain('1.5 mm at the top, 2 mm at the right, 1.5 mm at the bottom');
    expect(check.detail).not.toContain('left');
    expect(check.value).toBeCloseTo(2, 9);
  });

  it('a picture drawn to the trim lacks all of it', () => {
    expect(one({ placement: { mode: 'fit' } }, 'bleed.missing').value).toBeCloseTo(3, 9);
  });

  it('tells a thin bare rim from a picture that ends well inside', () => {
    expect(one({ placement: { mode: 'free', scale: 0.97 } }, 'edge.white-shows')).toMatchObject({
      level: 'look',
      value: expect.closeTo(1.5, 9),
    });
    expect(one({ placement: { mode: 'free', scale: 0.5 } }, 'edge.white-shows')).toMatchObject({
      level: 'note',
      value: expect.closeTo(25, 9),
    });
  });

  it('is silent where the artwork’s own rim is white or see-through', () => {
    const disc = (alpha: number) =>
      painted(400, 400, (x, y) =>
        Math.hypot(x - 0.5, y - 0.5) < 0.3 ? [200, 30, 30, 255] : [255, 255, 255, alpha],
      );
    expect(codes({ placement: { mode: 'fit' }, picture: disc(255) })).toEqual([]);
    expect(codes({ placement: { mode: 'fit' }, picture: disc(0) })).toEqual(['artwork.transparent']);
  });

  it('tells of a picture of which nothing shows', () => {
    const unseen = one({ picture: painted(300, 300, () => [200, 30, 30, 0]) }, 'artwork.nothing-shows');
    expect(unseen.level).toBe('look');
    const faint = painted(300, 300, (x, y) => [200, 30, 30, Math.hypot(x - 0.5, y - 0.5) < 0.1 ? 40 : 0]);
    expect(codes({ picture: faint })).toContain('artwork.transparent');
    expect(codes({ picture: faint })).not.toContain('artwork.nothing-shows');
  });

  it('sees the corners that a turned picture uncovers', () => {
    // A square at the fill size turned by 10°: the bleed's corner (53, 53) lies 53 (cos 10° + sin 10°) from the centre
    // along the artwork's axis, 53 of which are covered.
    const turn = Math.PI / 18;
    const check = one({ placement: { mode: 'free', scale: 1.06, rotationDegrees: 10 } }, 'edge.white-shows');
    expect(check.value).toBeCloseTo(53 * (Math.cos(turn) + Math.sin(turn) - 1) - 3, 3);
  });

  it('reads a round blank by its own edge', () => {
    // Disc of radius 50, bleed 3; a square of half side 51 covers the circle but for four caps of the bleed.
    const check = one(
      {
        shape: { kind: 'ellipse', widthMm: 100, heightMm: 100 },
        placement: { mode: 'free', scale: (102 * Math.SQRT2) / 100 },
      },
      'bleed.missing',
    );
    expect(check.value).toBeCloseTo(2, 9);
  });

  it('warns when the bleed is less than blanks differ', () => {
    expect(codes({ toleranceMm: 4 })).toEqual(['bleed.below-tolerance']);
  });

  it('leaves a place on a shirt alone: it has no edge', () => {
    expect(codes({ bleedMm: 0, toleranceMm: 0, safeMm: 0, placement: { mode: 'free', scale: 0.8 } })).toEqual(
      [],
    );
  });

  it('stops a picture beside the blank, and only then', () => {
    // 100 mm square beside a 100 mm face: they part at an offset of 100 mm.
    const at = (offsetXMm: number) => codes({ placement: { mode: 'free', offsetXMm } });
    expect(at(100.01)).toContain('artwork.off-the-piece');
    expect(at(99.9)).not.toContain('artwork.off-the-piece');
  });
});

describe('transparency', () => {
  it('counts what lies on the face', () => {
    // Fill: 106 mm of artwork, face the middle 100. See-through left of x = 0.25, that is 26.5 − 3 = 23.5 mm of the face.
    const check = one(
      { picture: painted(1000, 100, (x) => [10, 20, 30, x < 0.25 ? 0 : 255]), pixels: [2000, 2000] },
      'artwork.transparent',
    );
    expect(check.value).toBeCloseTo(23.5, 0);
  });
  it('does not count see-through bleed', () => {
    expect(codes({ picture: painted(1000, 1000, (x) => [90, 90, 90, x < 0.02 ? 0 : 255]) })).toEqual([]);
  });
});

describe('colour', () => {
  const colour = (unreachableShare: number | null, calibrated = true) => ({
    colour: { calibrated, unreachableShare, thresholdDeltaE00: 3 },
  });
  it.each([
    [0.004, []],
    [0.02, ['note']],
    [0.2, ['look']],
    [null, []],
  ])('%s of the picture unreachable', (share, levels) => {
    expect(found(colour(share)).map(({ level }) => level)).toEqual(levels);
  });
  it('says plainly that it is not calibrated', () => {
    expect(codes(colour(null, false))).toEqual(['colour.not-calibrated']);
  });
});

describe('seam', () => {
  const mug = (gapMm: number): Wrong => ({
    shape: { kind: 'cylinder', diameterMm: 82, heightMm: 95, gapMm, handle: true },
    pixels: [4000, 2000],
  });
  it('lets bleed reach into the gap but not over it', () => {
    expect(codes(mug(6))).toEqual([]);
    expect(one(mug(4), 'seam.overlap').value).toBeCloseTo(2, 9);
  });
});

describe('sheet room', () => {
  const a4 = { widthMm: 210, heightMm: 297, marginMm: 3 };
  it('stops what does not fit and names paper that would do', () => {
    const check = one(
      {
        shape: { kind: 'rectangle', widthMm: 200, heightMm: 300, cornerRadiusMm: 0 },
        paper: a4,
        pixels: [4000, 6000],
      },
      'sheet.does-not-fit',
    );
    expect(check.level).toBe('stop');
    expect(check.detail).toContain('206 × 306 mm');
    expect(check.remedy).toContain('A3');
  });
  it('says how many sheets it takes', () => {
    const check = one({ copies: 5, paper: a4 }, 'sheet.not-all-copies');
    expect(check.value).toBe(2);
    expect(check.remedy).toContain('3 sheets of 2 (1 to spare)');
  });
  it('says that pieces lie turned', () => {
    expect(
      codes({
        shape: { kind: 'rectangle', widthMm: 230, heightMm: 95, cornerRadiusMm: 0 },
        paper: a4,
        pixels: [4000, 4000],
      }),
    ).toEqual(['sheet.turned']);
  });
});

describe('mirror', () => {
  it('reminds of the driver', () => expect(codes({ mirroredBy: 'driver' })).toEqual(['mirror.by-driver']));
  it('says that a piece looked at through its back is laid the other way round', () =>
    expect(codes({ seenThrough: true })).toEqual(['mirror.seen-through']));
});

describe('order and standing', () => {
  it('puts what stops first, then looks, then notes', () => {
    const levels = found({
      coating: 'none',
      pixels: [400, 400],
      mirroredBy: 'driver',
      colour: { calibrated: false, unreachableShare: null, thresholdDeltaE00: null },
    }).map(({ level }) => level);
    expect(levels).toEqual(['stop', 'look', 'note', 'note']);
  });

  const level = (stops: number, looks: number, notes = 0) => [
    ...Array.from({ length: stops }, () => ({ level: 'stop' as const })),
    ...Array.from({ length: looks }, () => ({ level: 'look' as const })),
    ...Array.from({ length: notes }, () => ({ level: 'note' as const })),
  ];
  it.each([
    [0, 0, 'Ready to print.'],
    [0, 1, 'Ready to print. One thing to look at.'],
    [0, 2, 'Ready to print. Two things to look at.'],
    [0, 13, 'Ready to print. 13 things to look at.'],
    [1, 0, 'Not ready: one thing stands in the way.'],
    [2, 1, 'Not ready: two things stand in the way. One more thing to look at.'],
    [1, 3, 'Not ready: one thing stands in the way. Three more things to look at.'],
  ])('%i in the way, %i to look at', (stops, looks, sentence) => {
    expect(standingSentence(level(stops, looks, 4))).toBe(sentence);
  });

  it('gives every check an instruction', () => {
    const all = found({
      coating: 'none',
      pixels: [50, 50],
      toleranceMm: 9,
      mirroredBy: 'driver',
      copies: 90,
    });
    expect(all.length).toBeGreaterThan(4);
    for (const { title, detail, remedy } of all) {
      expect(title).toMatch(/^[A-Z0-9].*[^.]$/);
      expect(detail).toMatch(/[.]$/);
      expect(remedy).toMatch(/^[A-Z].*[.]$/);
    }
  });
});
