import type { PressKind } from '#contract';

/** What the ends of a press's heated face are called on its pictures: of a mug press it is the wrap laid flat. */
export interface SideNames {
  readonly top: string;
  readonly foot: string;
  /** In the name of a place. */
  readonly ends: readonly [string, string];
}

export const sideNames = (kind: PressKind | undefined): SideNames =>
  kind === 'mug'
    ? { top: 'top of the wrap', foot: 'bottom of the wrap', ends: ['top', 'bottom'] }
    : { top: 'back', foot: 'front, where you stand', ends: ['back', 'front'] };
