export type Side = 'left' | 'right' | 'top' | 'bottom';
/** Lines and bands run across the piece as it reads, or up and down. */
export type Direction = 'across' | 'down';

/** What goes wrong, in the units a person would measure it in; shares are 0..1 of the dye. */
export type PieceFault =
  /** Of the printer. */
  | {
      readonly kind: 'white lines';
      readonly direction: Direction;
      readonly everyMm: number;
      readonly widthMm: number;
      readonly share: number;
    }
  | {
      readonly kind: 'streaks';
      readonly direction: Direction;
      readonly widthMm: number;
      readonly share: number;
    }
  | {
      readonly kind: 'banding';
      readonly direction: Direction;
      readonly periodMm: number;
      readonly share: number;
    }
  /** More or less of each of the dyes that take red, green and blue: 1 is as it should be. */
  | { readonly kind: 'cast'; readonly dye: readonly [number, number, number] }
  | { readonly kind: 'reversed' }
  /** Of the press. */
  | { readonly kind: 'fade'; readonly where: 'overall' | 'corners' | Side; readonly share: number }
  | { readonly kind: 'blur'; readonly where: 'overall' | Side; readonly sigmaMm: number }
  | { readonly kind: 'double'; readonly dxMm: number; readonly dyMm: number; readonly share: number }
  | { readonly kind: 'specks'; readonly count: number; readonly radiusMm: number }
  | { readonly kind: 'fibres'; readonly count: number; readonly lengthMm: number; readonly widthMm: number }
  /** Black that went over or under: by so much less of one dye where all are heavy. */
  | { readonly kind: 'black'; readonly to: 'green' | 'brown'; readonly share: number }
  | {
      readonly kind: 'missing';
      readonly xMm: number;
      readonly yMm: number;
      readonly widthMm: number;
      readonly heightMm: number;
    }
  /** A line where a plate or the paper ended: dye pressed away beside it. */
  | { readonly kind: 'edge mark'; readonly side: Side; readonly fromEdgeMm: number; readonly share: number }
  /** The coating browned: optical density to blue light at the worst place. */
  | { readonly kind: 'scorch'; readonly where: 'overall' | Side; readonly density: number }
  | {
      readonly kind: 'placed';
      readonly dxMm: number;
      readonly dyMm: number;
      readonly scale: number;
      readonly degrees: number;
    };

/** 0 at the far side, 1 at this one. */
export function towards(side: Side, s: number, t: number): number {
  return { left: 1 - s, right: s, top: 1 - t, bottom: t }[side];
}
