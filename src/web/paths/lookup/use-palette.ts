import { useCallback, useState } from 'react';

/** A colour gathered for a palette: what was asked, what it is called. */
export interface PaletteColour {
  readonly hex: string;
  readonly name: string;
}
/** As many as one sheet takes. */
export const mostColours = 200;

const keyOf = (pathId: string) => `dyewright.palette.${pathId}`;

function kept(pathId: string): PaletteColour[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(pathId)) ?? '[]');
    if (!Array.isArray(found)) return [];
    return found
      .filter(
        (one): one is PaletteColour =>
          typeof one?.hex === 'string' && /^#[0-9a-f]{6}$/i.test(one.hex) && typeof one.name === 'string',
      )
      .slice(0, mostColours);
  } catch {
    return [];
  }
}

/** Colours gathered on this device until they are printed. */
export function usePalette(pathId: string) {
  const [colours, setColours] = useState(() => kept(pathId));
  const change = useCallback(
    (how: (old: readonly PaletteColour[]) => PaletteColour[]) =>
      setColours((old) => {
        const next = how(old).slice(0, mostColours);
        try {
          localStorage.setItem(keyOf(pathId), JSON.stringify(next));
        } catch {
          // A browser that keeps nothing: the palette lasts until the page is left.
        }
        return next;
      }),
    [pathId],
  );
  return {
    colours,
    holds: (hex: string) => colours.some((one) => one.hex === hex),
    add: (colour: PaletteColour) =>
      change((old) => (old.some((one) => one.hex === colour.hex) ? [...old] : [...old, colour])),
    rename: (hex: string, name: string) =>
      change((old) => old.map((one) => (one.hex === hex ? { ...one, name: name.slice(0, 40) } : one))),
    remove: (hex: string) => change((old) => old.filter((one) => one.hex !== hex)),
    clear: () => change(() => []),
  };
}
export type Palette = ReturnType<typeof usePalette>;
