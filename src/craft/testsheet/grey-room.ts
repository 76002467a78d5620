import type { RectMm } from '#craft/sheet';
import { blockLines } from './grey-steps.js';
import { leading } from './label-text.js';

/** Smaller ones are hard to judge beside a card; larger ones gain nothing. */
export const leastGreyPatchMm = 12;
const mostPatchMm = 20;
/** Patches to be compared lie close; blocks apart. */
const gapMm = 0.8;
const blockGapMm = 5;
/** Under a patch: its name, capitals of 2.2 mm, and a little air. */
const nameMm = 4;
/** Over a row of tone what to look for, in one line or, where that is too short, two. */
export const headCapMm = 2.6;
const oneLineOfHeadMm = 76;
const narrowestHeadMm = 40;
/** Black round the steps that are to stand out from it. */
const barMm = 1.5;
const toneSteps = 12;
const toneGapMm = 2;
const acrossLines = Math.max(...blockLines);

/** Where the parts of a grey sheet lie, and how large a patch is. */
export interface GreyRoom {
  readonly patchMm: number;
  readonly gapMm: number;
  /** From one line of a block to the next, the name under the patch included. */
  readonly linePitchMm: number;
  /** Five of them. */
  readonly blocks: readonly RectMm[];
  /** The sixth place. */
  readonly wordsBox: RectMm;
  /** Three of them, question and all. */
  readonly tones: readonly RectMm[];
  readonly perLine: number;
  readonly toneWidthMm: number;
  readonly toneGapMm: number;
  /** Patch and name. */
  readonly toneLineMm: number;
  readonly headMm: number;
  readonly headLines: number;
  readonly barMm: number;
}

/**
 * Tone below the blocks if that can be, so that each of its rows is one line to be read along; else beside them. The
 * blocks three beside each other or two, whichever leaves larger patches. Null when patches get too small.
 */
export function fitGreyRoom(room: RectMm): GreyRoom | null {
  for (const isBeside of [false, true]) {
    for (let tenths = mostPatchMm * 10; tenths >= leastGreyPatchMm * 10; tenths -= 1) {
      for (const across of [3, 2, 6]) {
        const way = fitted(room, tenths / 10, across, isBeside);
        if (way) return way;
      }
    }
  }
  return null;
}

function fitted(room: RectMm, patchMm: number, across: number, isBeside: boolean): GreyRoom | null {
  const down = 6 / across;
  const block = {
    widthMm: acrossLines * patchMm + (acrossLines - 1) * gapMm,
    heightMm: blockLines.length * (patchMm + nameMm),
  };
  const leastWidth = across * block.widthMm + (across - 1) * blockGapMm;
  const leastHeight = down * block.heightMm + (down - 1) * blockGapMm;
  const tone = isBeside
    ? { widthMm: room.widthMm - leastWidth - 2 * blockGapMm, heightMm: room.heightMm }
    : { widthMm: room.widthMm, heightMm: room.heightMm - leastHeight - blockGapMm };
  if (leastWidth > room.widthMm || leastHeight > room.heightMm) return null;
  const perLine = Math.min(toneSteps, Math.floor(tone.widthMm / (patchMm + toneGapMm)));
  if (perLine < 3 || tone.widthMm < narrowestHeadMm) return null;
  const headLines = tone.widthMm < oneLineOfHeadMm ? 2 : 1;
  const headMm = headLines * leading * headCapMm + 0.6;
  const lines = Math.ceil(toneSteps / perLine);
  const toneLineMm = patchMm + nameMm;
  const heights = [barMm, 0, 0].map((bar) => headMm + lines * (toneLineMm + 2 * bar));
  const needed = heights.reduce((sum, height) => sum + height, 0) + 2 * blockGapMm;
  if (needed > tone.heightMm) return null;

  // What is left over goes between the parts.
  const spare = isBeside ? room.heightMm - leastHeight : tone.heightMm - needed;
  const gaps = isBeside ? Math.max(1, down - 1) : down + 2;
  const extra = Math.min(8, spare / gaps);
  const spareAcross = isBeside ? 0 : Math.min(12, (room.widthMm - leastWidth) / Math.max(1, across - 1));
  const blocksWidth = leastWidth + (across - 1) * spareAcross;
  const left = isBeside ? room.xMm : room.xMm + (room.widthMm - blocksWidth) / 2;
  const places = Array.from({ length: 6 }, (_, i) => ({
    ...block,
    xMm: left + (i % across) * (block.widthMm + blockGapMm + spareAcross),
    yMm: room.yMm + Math.floor(i / across) * (block.heightMm + blockGapMm + extra),
  }));
  const toneLeft = isBeside ? room.xMm + leastWidth + 2 * blockGapMm : room.xMm;
  const toneExtra = isBeside ? Math.min(8, (tone.heightMm - needed) / 2) : extra;
  let y = isBeside ? room.yMm : room.yMm + leastHeight + blockGapMm + down * extra;
  const tones = heights.map((heightMm) => {
    const rect = { xMm: toneLeft, yMm: y, widthMm: tone.widthMm, heightMm };
    y += heightMm + blockGapMm + toneExtra;
    return rect;
  });
  const toneWidthMm = Math.min(1.5 * patchMm, tone.widthMm / perLine - toneGapMm);
  return {
    patchMm,
    gapMm,
    linePitchMm: patchMm + nameMm,
    blocks: places.slice(0, 5),
    wordsBox: places[5]!,
    tones,
    perLine,
    toneWidthMm,
    toneGapMm,
    toneLineMm,
    headMm,
    headLines,
    barMm,
  };
}
