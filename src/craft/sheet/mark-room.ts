import type { Mark, MarkFrame, RectMm } from './plan.js';

/** What the planner of marks is asked. */
export interface FrameRequest {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  readonly mirrorOnWriting: boolean;
  readonly caption: string;
}

/** A sheet's marks and the rectangle they leave for pieces. */
export interface RoomWithMarks {
  readonly frame: MarkFrame;
  readonly marks: readonly Mark[];
  readonly liveArea: RectMm;
}

/** Every way to set the marks on a sheet, the best to read first; none when the sheet is too small for any. */
export function roomsWithMarks(_request: FrameRequest): readonly RoomWithMarks[] {
  return [];
}
