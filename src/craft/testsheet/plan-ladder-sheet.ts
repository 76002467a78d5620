import { Problem } from '#craft/problem';
import { cornerMark, type Mark, qrMark, type RectMm, spokenSheetId, textMarks, wordsFor } from '#craft/sheet';
import { writeCouponCode } from './coupon-code.js';
import { couponLayout, leastCouponMm, mostCouponMm } from './coupon-layout.js';
import { mostCoupons, numberCells, numberWord } from './coupon-number.js';
import { leading, longestWordInCaps, widthInCaps, wrapped } from './label-text.js';
import type {
  CouponLayout,
  LadderSheetOrder,
  PlannedCoupon,
  PlannedLadderSheet,
} from './press-sheet-types.js';

/** The words over the coupons. */
const headMm = 7;
const headAirMm = 1.5;
const cutLineMm = 0.15;
const cutRgb = [170, 170, 170] as const;

/**
 * Coupons to be cut apart and pressed in steps, each with marks of its own: any of them can be scanned alone or with
 * others, lying anyhow.
 *
 * @throws Problem `request.invalid` for numbers that cannot be, `sheet.impossible` when they do not fit
 */
export function planLadderSheet(order: LadderSheetOrder): PlannedLadderSheet {
  checkNumbers(order.coupons.map(({ number }) => number));
  const least = leastCouponMm(order.material);
  const coupon = sizedCoupon(order, least);
  const { widthMm: couponWidth, heightMm: couponHeight } = coupon;
  const { marginMm } = order;
  const widthMm = hundredth(order.widthMm);
  const heightMm = hundredth(order.heightMm);
  const top = marginMm + headMm + headAirMm;
  const { columns, rows } = couponGrid({ widthMm, heightMm, marginMm }, couponWidth, couponHeight);
  const room = columns * rows;
  if (!(room >= order.coupons.length)) throw doNotFit(order, coupon, room);

  const left = marginMm + (widthMm - 2 * marginMm - columns * couponWidth) / 2;
  const coupons = order.coupons.map(({ number, step = '' }, i): PlannedCoupon => {
    const xMm = left + (i % columns) * couponWidth;
    const yMm = top + Math.floor(i / columns) * couponHeight;
    return { number, step: step.trim(), rect: { xMm, yMm, widthMm: couponWidth, heightMm: couponHeight } };
  });
  const head = { xMm: marginMm, yMm: marginMm, widthMm: widthMm - 2 * marginMm, heightMm: headMm };
  const { sheetId, mirrorOnWriting } = order;
  const caption = order.caption ?? `Ladder, ${coupons.length} coupons: cut along the grey lines`;
  const marks = [
    ...textMarks(head, wordsFor(head, sheetId, mirrorOnWriting, caption)),
    ...cutLines(coupons),
    ...coupons.flatMap((one) => couponMarks(order, coupon, one)),
  ];
  return {
    plan: { sheetId, widthMm, heightMm, mirrorOnWriting, pieces: [], marks, frame: null },
    coupon,
    coupons,
  };
}

/** How many coupons of these sides, mm, lie side by side and one below the other under the head of a sheet; 0 for none. */
export function couponGrid(
  sheet: { readonly widthMm: number; readonly heightMm: number; readonly marginMm: number },
  couponWidthMm: number,
  couponHeightMm: number,
): { readonly columns: number; readonly rows: number } {
  const { widthMm, heightMm, marginMm } = sheet;
  const count = (roomMm: number, sideMm: number): number => Math.max(0, Math.floor((roomMm + 1e-6) / sideMm));
  return {
    columns: count(widthMm - 2 * marginMm, couponWidthMm),
    rows: count(heightMm - 2 * marginMm - headMm - headAirMm, couponHeightMm),
  };
}

function checkNumbers(numbers: readonly number[]): void {
  const isPossible = (n: number): boolean => Number.isInteger(n) && n >= 1 && n <= mostCoupons;
  if (numbers.length > 0 && numbers.every(isPossible) && new Set(numbers).size === numbers.length) return;
  throw new Problem('request.invalid', 'A ladder’s coupons cannot be numbered so.', {
    remedy: `Make 1 to ${mostCoupons} coupons, numbered from 1 to ${mostCoupons}, none twice.`,
  });
}

function sizedCoupon(order: LadderSheetOrder, least: number): CouponLayout {
  const width = hundredth(order.couponWidthMm ?? least);
  const height = hundredth(order.couponHeightMm ?? least);
  const layout = couponLayout(width, height, order.material);
  if (layout) return layout;
  const on = order.material === 'fabric' ? 'for fabric' : 'for hard blanks';
  throw new Problem('sheet.impossible', `A coupon ${on} of ${width} × ${height} mm could not be read.`, {
    remedy: `Make its sides from ${least} to ${mostCouponMm} mm.`,
  });
}

function doNotFit(order: LadderSheetOrder, { widthMm, heightMm }: CouponLayout, room: number): Problem {
  const size = `${Math.round(order.widthMm)} × ${Math.round(order.heightMm)} mm`;
  return new Problem(
    'sheet.impossible',
    `${order.coupons.length} coupons of ${widthMm} × ${heightMm} mm do not fit on a sheet of ${size}.`,
    {
      remedy:
        room > 0
          ? `Put at most ${room} on one sheet and the others on a second one, or use a larger sheet.`
          : 'Use a larger sheet.',
    },
  );
}

/** A coupon's marks where it lies on the sheet. */
function couponMarks(order: LadderSheetOrder, layout: CouponLayout, one: PlannedCoupon): Mark[] {
  const { sheetId, mirrorOnWriting } = order;
  const { frame, patches, edgeTarget, words, material } = layout;
  const { xMm: dx, yMm: dy, widthMm, heightMm } = one.rect;
  const moved = (rect: RectMm): RectMm => ({ ...rect, xMm: rect.xMm + dx, yMm: rect.yMm + dy });
  const code = writeCouponCode({ sheetId, number: one.number, mirrorOnWriting, material, widthMm, heightMm });
  const corners = edgeTarget.corners.map(({ xMm, yMm }) => ({ xMm: xMm + dx, yMm: yMm + dy }));
  return [
    ...frame.markers.map(({ id, rect }) => cornerMark(id, moved(rect))),
    qrMark(code, moved(frame.qr)),
    {
      kind: 'cells',
      rect: moved(layout.number),
      columns: numberCells,
      rows: numberCells,
      cells: numberWord(one.number),
      role: 'identity',
    },
    ...patches.map(
      ({ rect, deviceRgb }): Mark => ({ kind: 'fill', rect: moved(rect), rgb: deviceRgb, role: 'patch' }),
    ),
    { kind: 'shape', rect: boundsOf(corners), corners, rgb: [0, 0, 0], role: 'edge' },
    ...words.map(
      ({ box, capMm, text }): Mark => ({
        kind: 'text',
        xMm: box.xMm + dx,
        yMm: box.yMm + capMm + dy,
        capHeightMm: capMm,
        maxWidthMm: box.widthMm,
        text,
        role: 'small-words',
      }),
    ),
    ...labelMarks(moved(layout.label), one, sheetId),
  ];
}

const largestLabelCap = ({ heightMm }: RectMm): number => 0.325 * heightMm;
const leastLabelCapMm = 1.3;
const idCapMm = 1.1;

/** The number and the step as large as they fit, and the ladder's id in small letters under them. */
function labelMarks(box: RectMm, { number, step }: PlannedCoupon, sheetId: string): Mark[] {
  const place = (text: string, capHeightMm: number, yMm: number): Mark => ({
    kind: 'text',
    xMm: box.xMm,
    yMm,
    capHeightMm,
    maxWidthMm: box.widthMm,
    text,
    role: 'label',
  });
  const foot = box.yMm + box.heightMm - 0.2 * idCapMm;
  const id = place(spokenSheetId(sheetId), idCapMm, foot);
  const roomMm = box.heightMm - 2.2 * idCapMm;
  if (step === '') {
    const cap = largestLabelCap(box);
    const written = `${number} ·`;
    const from = cap * widthInCaps(written) + 1;
    const line: RectMm = {
      xMm: box.xMm + from,
      yMm: box.yMm + cap + 0.3,
      widthMm: box.widthMm - from,
      heightMm: 0.2,
    };
    return [place(written, cap, box.yMm + cap), { kind: 'fill', rect: line, rgb: cutRgb, role: 'label' }, id];
  }
  // '40 s' stays together where it can; a point between two of them says nothing at a line's end or start.
  const spaced = `${number} · ${step}`.replace(/\s+/g, ' ');
  const joined = spaced
    .split(' · ')
    .map((part) => part.replaceAll(' ', '\u00a0'))
    .join(' · ');
  for (const text of [joined, spaced]) {
    for (let cap = largestLabelCap(box); cap >= leastLabelCapMm - 1e-9; cap -= 0.1) {
      const most = box.widthMm / cap;
      const { lines, isWhole } = wrapped(text, most, Math.floor((roomMm - cap) / (cap * leading)) + 1);
      const isLast = text === spaced && cap - 0.1 < leastLabelCapMm - 1e-9;
      if (!isLast && !(isWhole && longestWordInCaps(text) <= most)) continue;
      const set = lines.map((words, i) =>
        place(words.replace(/^· | ·$/g, ''), cap, box.yMm + cap * (1 + i * leading)),
      );
      return [...set, id];
    }
  }
  return [id];
}

/** Thin grey lines where two coupons meet or one ends; each once. */
function cutLines(coupons: readonly PlannedCoupon[]): Mark[] {
  const lines = new Map<string, Mark>();
  const put = (xMm: number, yMm: number, widthMm: number, heightMm: number): void => {
    const rect = { xMm: xMm - cutLineMm / 2, yMm: yMm - cutLineMm / 2, widthMm, heightMm };
    const name = [xMm, yMm, widthMm].map((mm) => mm.toFixed(2)).join();
    lines.set(name, { kind: 'fill', rect, rgb: cutRgb, role: 'trim' });
  };
  for (const { rect } of coupons) {
    for (const at of [0, rect.heightMm]) put(rect.xMm, rect.yMm + at, rect.widthMm + cutLineMm, cutLineMm);
    for (const at of [0, rect.widthMm]) put(rect.xMm + at, rect.yMm, cutLineMm, rect.heightMm + cutLineMm);
  }
  return [...lines.values()];
}

function boundsOf(corners: readonly { xMm: number; yMm: number }[]): RectMm {
  const xs = corners.map(({ xMm }) => xMm);
  const ys = corners.map(({ yMm }) => yMm);
  const [xMm, yMm] = [Math.min(...xs), Math.min(...ys)];
  return { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm };
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
