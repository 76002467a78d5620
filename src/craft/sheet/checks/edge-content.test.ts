import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSheet } from './index.js';
import { type Paint, painted, subjectWith, type Wrong } from './test-subject.js';

const edgeChecks = (paint: Paint, wrong: Wrong = {}) =>
  checkSheet(subjectWith({ picture: painted(500, 500, paint), ...wrong })).filter(({ code }) =>
    code.startsWith('edge.'),
  );
/** Fill of a 100 mm face with 3 mm bleed: the picture spans 106 mm, so a place in mm from the left trim edge is… */
const mm = (share: number): number => share * 106 - 3;
const inBox = (x: number, y: number, left: number, top: number, right: number, bottom: number): boolean =>
  mm(x) > left && mm(x) < right && mm(y) > top && mm(y) < bottom;

const navy = [20, 40, 90] as const;
const cream = [245, 238, 220] as const;

describe('content near the edge', () => {
  it('measures how near a block of lettering comes, for any distance and side', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 4.5, noNaN: true }),
        fc.constantFrom('left', 'right', 'top', 'bottom'),
        (gap, side) => {
          const [near, far] = [gap, 30];
          const paint: Paint = (x, y) => {
            const [u, v] = side === 'left' || side === 'right' ? [x, y] : [y, x];
            const t = side === 'left' || side === 'top' ? u : 1 - u;
            return mm(t) > near && mm(t) < far && Math.abs(v - 0.5) < 0.1 ? navy : cream;
          };
          const [check, ...others] = edgeChecks(paint);
          expect(others).toEqual([]);
          expect(check).toMatchObject({ code: 'edge.too-close', level: 'look' });
          expect(check?.detail).toContain(`At the ${side} `);
          // A cell is 0.21 mm; contours are seen to within two.
          expect(Math.abs(check!.value! - gap)).toBeLessThan(0.45);
        },
      ),
      { numRuns: 8 },
    );
  });

  it('is silent when everything keeps its distance', () => {
    expect(edgeChecks((x, y) => (inBox(x, y, 6, 6, 94, 94) ? navy : cream))).toEqual([]);
  });

  it('sees lettering on a soft gradient, and no content in the gradient itself', () => {
    const sky: Paint = (x, y) => [60 + 120 * y, 110 + 90 * y, 200 + 40 * x];
    expect(edgeChecks(sky)).toEqual([]);
    const lettered: Paint = (x, y) => (inBox(x, y, 40, 2, 60, 9) ? [255, 255, 255] : sky(x, y));
    expect(edgeChecks(lettered).map(({ code }) => code)).toEqual(['edge.too-close']);
  });

  it('tells a stripe through the edge as a note', () => {
    expect(edgeChecks((x, y) => (mm(y) > 40 && mm(y) < 60 && x < 2 ? navy : cream))).toMatchObject([
      { code: 'edge.runs-off', level: 'note' },
    ]);
  });

  it('sees what runs off at one side and comes close at another', () => {
    const pole: Paint = (x, y) => (mm(x) > 48 && mm(x) < 52 && mm(y) > 3 ? navy : cream);
    expect(edgeChecks(pole)).toMatchObject([
      { code: 'edge.too-close', detail: expect.stringContaining('At the top ') },
      { code: 'edge.runs-off', detail: expect.stringContaining('at the bottom.') },
    ]);
  });

  it('takes a speck for dust', () => {
    expect(edgeChecks((x, y) => (inBox(x, y, 3, 50, 3.4, 50.4) ? navy : cream))).toEqual([]);
  });

  it('sees a thin border all round', () => {
    const border: Paint = (x, y) => {
      const nearest = Math.min(mm(x), mm(y), 100 - mm(x), 100 - mm(y));
      return nearest > 2 && nearest < 3 ? navy : cream;
    };
    const checks = edgeChecks(border);
    expect(checks).toMatchObject([{ code: 'edge.too-close' }]);
    expect(checks[0]?.detail).toContain('left, top, right and bottom');
  });

  it('goes by the edge of a round blank, not of its box', () => {
    const round: Wrong = { shape: { kind: 'ellipse', widthMm: 100, heightMm: 100 } };
    // At 45° and 3 mm inside the circle of 50 mm radius: 47/√2 from the centre, far inside the box.
    const at = 47 / Math.SQRT2;
    const dot =
      (radius: number): Paint =>
      (x, y) =>
        Math.hypot(mm(x) - 50 - at * (radius / 47), mm(y) - 50 - at * (radius / 47)) < 1 ? navy : cream;
    const check = edgeChecks(dot(46), round)[0];
    expect(check?.code).toBe('edge.too-close');
    expect(Math.abs(check!.value! - 3)).toBeLessThan(0.45);
    expect(edgeChecks(dot(40), round)).toEqual([]);
    expect(edgeChecks(dot(46))).toEqual([]);
  });

  it('says nothing where there is detail everywhere, as in foliage', () => {
    // A seeded hash as texture: no two neighbours alike.
    const leaves: Paint = (x, y) => {
      const n =
        Math.abs(Math.sin(Math.floor(x * 250) * 12.9898 + Math.floor(y * 250) * 78.233) * 43758.5453) % 1;
      return [40 + 100 * n, 90 + 120 * n, 30];
    };
    expect(edgeChecks((x, y) => (inBox(x, y, 40, 2, 60, 9) ? [255, 255, 255] : leaves(x, y)))).toEqual([]);
  });

  it('does not take the end of a smaller picture for content', () => {
    const plain: Paint = () => navy;
    const codes = edgeChecks(plain, { placement: { mode: 'free', scale: 0.95 } }).map(({ code }) => code);
    expect(codes).toEqual(['edge.white-shows']);
  });

  it('leaves alone a blank without a safe margin', () => {
    expect(edgeChecks((x, y) => (inBox(x, y, 1, 1, 50, 50) ? navy : cream), { safeMm: 0 })).toEqual([]);
  });
});
