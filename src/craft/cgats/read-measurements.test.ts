import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { readMeasurements } from './read-measurements.js';
import { writeCgats } from './write-cgats.js';

const cgats = [
  'CGATS.17',
  'ORIGINATOR "Saltmarsh studio (invented)"',
  'DESCRIPTOR "Row ""A"", first pull"   # a remark',
  'WEIGHTING_FUNCTION "ILLUMINANT, D50"',
  'WEIGHTING_FUNCTION "OBSERVER, 2 degree"',
  'NUMBER_OF_FIELDS 8',
  'BEGIN_DATA_FORMAT',
  'SAMPLE_ID SAMPLE_NAME RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B',
  'END_DATA_FORMAT',
  'NUMBER_OF_SETS 3',
  'BEGIN_DATA',
  '1 "paper white" 255 255 255 96.1 -0.5 2.0',
  '2 "deep blue" 0 0 128 21.4 18.2 -4.51e1',
  '3 black 0 0 0 18.0 0.1 -0.3',
  'END_DATA',
];
const refusal = (text: string): { message: string; remedy: string } => {
  try {
    readMeasurements(text);
  } catch (error) {
    if (isProblem(error) && error.code === 'measurements.broken') return error;
    throw error;
  }
  throw new Error('was accepted');
};

describe('CGATS text', () => {
  for (const [name, text] of [
    ['LF', cgats.join('\n')],
    ['CRLF', cgats.join('\r\n')],
    ['CR', cgats.join('\r')],
    ['a byte order mark', `\uFEFF${cgats.join('\n')}`],
    ['no keywords at all', cgats.slice(6).join('\n')],
    ['comments among the rows', cgats.flatMap((line) => [line, '# remark']).join('\n')],
  ] as const) {
    it(`is read with ${name}`, () => {
      const table = readMeasurements(text);
      expect(table.device.space).toBe('RGB');
      expect(table.device.rows[1]).toEqual([0, 0, 128 / 255]);
      expect(table.lab![1]![2]).toBeCloseTo(-45.1, 9);
      expect(table.sampleIds).toEqual(['1', '2', '3']);
      expect(table.remarks.join()).toContain('0 to 255');
    });
  }

  it('keeps quoted words with blanks and doubled quotes', () => {
    const table = readMeasurements(cgats.join('\n'));
    expect(table.keywords.get('DESCRIPTOR')).toBe('Row "A", first pull');
  });

  it('reads tabs with an empty header cell and empty values', () => {
    const text = [
      'CGATS.17',
      'BEGIN_DATA_FORMAT',
      'SAMPLE_ID\tRGB_R\tRGB_G\tRGB_B\t\tLAB_L\tLAB_A\tLAB_B\t',
      'END_DATA_FORMAT',
      'BEGIN_DATA',
      'A 1\t0\t50\t100\t\t50\t1\t2\t',
      'A 2\t100\t50\t0\t\t60\t3\t4',
      'END_DATA',
    ].join('\n');
    const table = readMeasurements(text);
    expect(table.sampleIds).toEqual(['A 1', 'A 2']);
    expect(table.device.rows).toEqual([
      [0, 0.5, 1],
      [1, 0.5, 0],
    ]);
    expect(table.lab![0]![0]).toBeCloseTo(50, 9);
  });

  it('puts rows broken over lines together', () => {
    const broken = cgats.map((line) => line.replace(' 96.1', '\n96.1')).join('\n');
    expect(readMeasurements(broken).lab![2]![0]).toBeCloseTo(18, 9);
  });

  it('joins device values and colours of two tables by sample', () => {
    const text = [
      ...['CGATS.17', 'BEGIN_DATA_FORMAT', 'SAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K', 'END_DATA_FORMAT'],
      ...['BEGIN_DATA', '1 0 0 0 0', '2 100 0 0 0', 'END_DATA'],
      ...['BEGIN_DATA_FORMAT', 'SAMPLE_ID XYZ_X XYZ_Y XYZ_Z', 'END_DATA_FORMAT'],
      ...['BEGIN_DATA', '2 14 21 54', '1 84 88 73', 'END_DATA'],
    ].join('\n');
    const table = readMeasurements(text);
    expect(table.device).toEqual({
      space: 'CMYK',
      rows: [
        [1, 0, 0, 0],
        [0, 0, 0, 0],
      ],
    });
    expect(table.xyz![0]).toEqual([14, 21, 54]);
  });

  it('works colours out of spectra, in percent too', () => {
    const bands = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
    const text = (value: string): string =>
      [
        ...['CGATS.17', 'BEGIN_DATA_FORMAT', `RGB_R RGB_G RGB_B ${bands.map((nm) => `NM_${nm}`).join(' ')}`],
        ...['END_DATA_FORMAT', 'BEGIN_DATA', `1 1 1 ${bands.map(() => value).join(' ')}`, 'END_DATA'],
      ].join('\n');
    // A surface of even reflectance 0.5 has Y 50 and Lab 76.07, 0, 0 (CIE 15: L* = 116·∛0.5 − 16).
    for (const value of ['0.5', '50']) {
      const table = readMeasurements(text(value));
      expect(table.xyz![0]![1]).toBeCloseTo(50, 9);
      expect(table.lab![0]![0]).toBeCloseTo(116 * Math.cbrt(0.5) - 16, 6);
      expect(Math.hypot(table.lab![0]![1], table.lab![0]![2])).toBeLessThan(1e-6);
      expect(table.spectra!.rows[0]![0]).toBeCloseTo(0.5, 12);
    }
  });

  it('says when colours are for another light or observer', () => {
    expect(refusal(cgats.join('\n').replace('D50', 'D65')).message).toContain('D65');
    expect(refusal(cgats.join('\n').replace('2 degree', '10 degree')).message).toContain('10°');
  });
});

describe('CSV', () => {
  const rows = [
    ['R', 'G', 'B', 'L*', 'a*', 'b*'],
    ['0', '127.5', '255', '50.5', '-1.25', '3'],
    ['255', '0', '0', '45', '60', '40'],
  ];
  for (const [name, separator, comma] of [
    ['commas', ',', false],
    ['semicolons and decimal commas', ';', true],
    ['tabs', '\t', false],
    ['tabs and decimal commas', '\t', true],
  ] as const) {
    it(`is read with ${name}`, () => {
      const text = rows
        .map((row) => row.map((cell) => (comma ? cell.replace('.', ',') : cell)).join(separator))
        .join('\r\n');
      const table = readMeasurements(text);
      expect(table.device.rows[0]).toEqual([0, 0.5, 1]);
      expect(table.lab![0]![0]).toBeCloseTo(50.5, 9);
      expect(table.lab![0]![1]).toBeCloseTo(-1.25, 9);
    });
  }

  it('reads quoted cells (RFC 4180)', () => {
    const table = readMeasurements('ID,RGB_R,RGB_G,RGB_B,LAB_L,LAB_A,LAB_B\n"a, ""b""",0,0,1,20,"1",-40\n');
    expect(table.sampleIds).toEqual(['a, "b"']);
  });

  it('reads LCh', () => {
    const table = readMeasurements('R,G,B,LCH_L,LCH_C,LCH_H\n1,0,0,50,20,90\n0,0,0,10,0,0');
    expect(table.lab![0]![2]).toBeCloseTo(20, 9);
  });
});

describe('malformed files get a sentence and a remedy', () => {
  const text = cgats.join('\n');
  for (const [name, bad, says] of [
    ['nothing', '  \n', 'empty'],
    ['a picture', '\x89PNG\r\n\0\0', 'not text'],
    ['a letter', 'Dear studio,\nthe boats are late.', 'neither CGATS'],
    ['numbers without names', '1,2,3,4,5,6\n7,8,9,10,11,12', 'names of the columns'],
    ['a file cut off in the rows', text.slice(0, text.indexOf('3 black')), 'no end'],
    ['a file cut off in the columns', text.slice(0, text.indexOf('END_DATA_FORMAT')), 'no end'],
    ['a missing value', text.replace(' 18.0 0.1', ' 0.1'), '8 values'],
    ['a word for a number', text.replace('18.0', 'n/a'), 'n/a'],
    ['two rows fewer than stated', text.replace('SETS 3', 'SETS 5'), 'says it holds 5'],
    ['an open quotation mark', text.replace('"deep blue"', '"deep blue'), 'quotation mark'],
    ['values before columns', 'CGATS.17\nBEGIN_DATA\n1 2\nEND_DATA', 'before the list'],
    ['device values beyond 255', text.replaceAll('255', '4095'), '4095'],
    ['an impossible colour', text.replace('96.1', '960'), 'cannot be'],
    ['a short row of CSV', 'R,G,B,L,a,b\n1,2,3,4,5', 'Row 1'],
  ] as const) {
    it(name, () => {
      const problem = refusal(bad);
      expect(problem.message).toContain(says);
      expect(problem.remedy.length).toBeGreaterThan(10);
      expect(problem.message).toMatch(/\.$/);
    });
  }

  it('whatever is done to the text, only such sentences come out', () => {
    const alphabet = fc.constantFrom('"', '\t', '\n', '\r', ' ', '#', ',', ';', '-', '9', 'E', '\uFEFF', 'é');
    const damage = fc.array(
      fc.record({ at: fc.nat(1000), cut: fc.nat(30), put: fc.string({ unit: alphabet, maxLength: 6 }) }),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(
        fc.constantFrom(text, 'R,G,B,L,a,b\n1,0,0,50,20,30\n0,1,0,60,-20,30\n'),
        damage,
        (start, blows) => {
          let bad: string = start;
          for (const { at, cut, put } of blows) {
            const from = at % (bad.length + 1);
            bad = bad.slice(0, from) + put + bad.slice(from + cut);
          }
          try {
            const table = readMeasurements(bad);
            for (const row of table.device.rows) for (const v of row) expect(v >= 0 && v <= 1).toBe(true);
            for (const lab of table.lab ?? []) expect(lab.every(Number.isFinite)).toBe(true);
          } catch (error) {
            expect(isProblem(error) && error.code === 'measurements.broken', String(error)).toBe(true);
          }
        },
      ),
      { seed: 28178, numRuns: 3000 },
    );
  });
});

describe('writing', () => {
  it('what is written is read as it was', () => {
    const number = (min: number, max: number): fc.Arbitrary<number> =>
      fc.double({ min, max, noNaN: true }).map((v) => Math.round(v * 1000) / 1000);
    const patch = fc.record({
      rgb: fc.tuple(number(0, 1), number(0, 1), number(0, 1)),
      lab: fc.tuple(number(1, 99), number(-80, 80), number(-80, 80)),
      id: fc.string({ unit: fc.constantFrom('a', 'é', '"', ' ', '#', '7'), minLength: 1, maxLength: 6 }),
    });
    fc.assert(
      fc.property(fc.array(patch, { minLength: 2, maxLength: 8 }), (patches) => {
        const text = writeCgats(
          {
            // The range is guessed from the largest value, so a full channel must be there.
            device: { space: 'RGB', rows: patches.map((p, i) => (i === 0 ? [1, 1, 1] : p.rgb)) },
            lab: patches.map((p) => p.lab),
            xyz: null,
            spectra: null,
            sdLab: patches.map(() => [0.1, 0.2, 0.3]),
            sampleIds: patches.map((p) => p.id),
            keywords: new Map(),
            remarks: [],
          },
          { originator: 'a "test"', created: '2026-01-01' },
        );
        const back = readMeasurements(text);
        expect(back.sampleIds).toEqual(patches.map((p) => p.id));
        expect(back.sdLab![0]).toEqual([0.1, 0.2, 0.3]);
        patches.forEach((p, i) => {
          p.lab.forEach((v, j) => {
            expect(back.lab![i]![j]).toBeCloseTo(v, 6);
          });
          if (i > 0)
            p.rgb.forEach((v, j) => {
              expect(back.device.rows[i]![j]).toBeCloseTo(v, 6);
            });
        });
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
