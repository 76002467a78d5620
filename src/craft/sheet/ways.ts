import { type FrameOrder, liveAreas, type PlannedFrame } from './frame.js';
import type { FrameVariant } from './frame-variant.js';
import type { SheetOrder } from './order.js';
import type { RectMm } from './plan.js';
import { grownRect } from './rects.js';
import { rollLengthMm } from './roll.js';
import { type BoxMm, type Stepping, stepBoxes, usualGapsMm } from './stepping.js';

type Room = Pick<PlannedFrame, 'variant' | 'liveArea'>;

/** One way to lay an order on its paper. */
export interface Way {
  readonly step: Stepping;
  readonly turned: boolean;
  /** How the marks are set round it; null: none. */
  readonly room: Room | null;
  readonly heightMm: number;
}

/** A roll is laid turned only where that spends clearly less of it. */
const worthTurning = 0.9;

/**
 * Upright if that takes as many copies as turned by 90°; with marks if a single piece fits so, else without; on a roll
 * in the shorter of the two ways, cut to length.
 */
export function bestWay(order: SheetOrder): Way {
  const { paper } = order;
  if (paper.roll !== true) return best(order, paper.heightMm, { turns: [false, true] });
  const upright = cutToLength(order, false);
  const turned = cutToLength(order, true);
  if (turned.step.boxes.length !== upright.step.boxes.length) {
    return turned.step.boxes.length > upright.step.boxes.length ? turned : upright;
  }
  return turned.heightMm < upright.heightMm * worthTurning ? turned : upright;
}

/** Room kept above and below the pieces on a cut roll, so that their trim lines are there too. */
const endRoomMm = 6;

/**
 * The shortest sheet off the roll that takes as many pieces as the whole length would, as far apart and its marks set
 * alike.
 */
function cutToLength(order: SheetOrder, turned: boolean): Way {
  const whole = best(order, order.paper.heightMm, { turns: [turned] });
  if (whole.step.boxes.length === 0) return whole;
  const alike = { turns: [turned], variant: whole.room?.variant, gapMm: whole.step.gapMm };
  const lengthMm = rollLengthMm(order.paper.heightMm, (tryMm) => {
    const cut = best(order, tryMm, { ...alike, endRoomMm });
    return cut.step.boxes.length >= whole.step.boxes.length && cut.room?.variant === alike.variant;
  });
  return best(order, lengthMm, alike);
}

interface Among {
  readonly turns: readonly boolean[];
  readonly variant?: FrameVariant | undefined;
  readonly gapMm?: number;
  readonly endRoomMm?: number;
}

/** The way that takes most copies, with marks if any way with marks takes one; among equals the one named first. */
function best(order: SheetOrder, heightMm: number, among: Among): Way {
  const { paper } = order;
  const printable = grownRect({ xMm: 0, yMm: 0, widthMm: paper.widthMm, heightMm }, -paper.marginMm);
  const gapsMm = among.gapMm === undefined ? usualGapsMm : [among.gapMm];
  const waysIn = (room: Room | null): Way[] => {
    const area = shortened(room?.liveArea ?? printable, among.endRoomMm ?? 0);
    return among.turns.map((turned) => {
      const box = bleedBox(order, turned);
      const step = stepBoxes(area, box, order.copies, { gapsMm, longRows: paper.roll === true });
      return { room, turned, step, heightMm };
    });
  };
  const marked = liveAreas({ ...frameOrder(order, heightMm), variant: among.variant })
    .flatMap(waysIn)
    .filter((way) => way.step.boxes.length > 0);
  const ways = marked.length > 0 ? marked : waysIn(null);
  return ways.reduce((kept, way) => (way.step.boxes.length > kept.step.boxes.length ? way : kept));
}

function shortened(area: RectMm, endMm: number): RectMm {
  return { ...area, yMm: area.yMm + endMm, heightMm: area.heightMm - 2 * endMm };
}

/** What the planner of marks is asked for this order on a sheet of that length. */
export function frameOrder(order: SheetOrder, heightMm: number): FrameOrder {
  return {
    sheetId: order.sheetId,
    widthMm: order.paper.widthMm,
    heightMm,
    marginMm: order.paper.marginMm,
    mirrorOnWriting: order.mirrorOnWriting,
    caption: order.caption,
  };
}

/** A piece with its bleed, as it lies. */
export function bleedBox({ outline, bleedMm }: SheetOrder, turned: boolean): BoxMm {
  const widthMm = outline.widthMm + 2 * bleedMm;
  const heightMm = outline.heightMm + 2 * bleedMm;
  return turned ? { widthMm: heightMm, heightMm: widthMm } : { widthMm, heightMm };
}
