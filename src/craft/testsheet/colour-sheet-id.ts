import { Problem } from '#craft/problem';
import { isSheetId, newSheetId } from '#craft/sheet';
import { choosePatches } from './choose-patches.js';
import type { SheetMaterial } from './types.js';

/** What a colour test sheet's own id says: enough to know every patch without any record. */
export interface ColourSheetRecipe {
  /** 30 to 900. */
  readonly count: number;
  /** 0 to 2²¹ − 1; of the patches and of their places. */
  readonly seed: number;
  readonly material: SheetMaterial;
}

export const colourSheetCounts = { fewest: 30, most: 900 } as const;
export const largestColourSheetSeed = 2 ** 21 - 1;

/** Counts up when the same recipe no longer gives the same sheet. */
const layoutVersion = 1;
/** Of a sheet id (Crockford's base 32, as `newSheetId` writes it). */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/**
 * A sheet id that says what the sheet is. Its 45 bits: 13 of a checksum over the patches, 10 of the count, 1 of the
 * material, 21 of the seed. An ordinary sheet's chance bits pass for one in about one of 9300 cases; the marks on the
 * sheet then disagree.
 * @throws Problem `request.invalid` for a count or seed out of range
 */
export function colourSheetId(recipe: ColourSheetRecipe): string {
  const { count, seed, material } = recipe;
  if (!Number.isInteger(count) || count < colourSheetCounts.fewest || count > colourSheetCounts.most) {
    throw new Problem('request.invalid', `A colour test sheet of ${count} patches cannot be made.`, {
      remedy: `Choose a whole number from ${colourSheetCounts.fewest} to ${colourSheetCounts.most}.`,
    });
  }
  if (!Number.isInteger(seed) || seed < 0 || seed > largestColourSheetSeed) {
    throw new Problem('request.invalid', `${seed} cannot be the seed of a colour test sheet.`, {
      remedy: `Choose a whole number from 0 to ${largestColourSheetSeed}.`,
    });
  }
  let bits = BigInt(checksum(recipe));
  bits = (bits << 10n) | BigInt(count);
  bits = (bits << 1n) | (material === 'fabric' ? 1n : 0n);
  bits = (bits << 21n) | BigInt(seed);
  const bytes = Uint8Array.from({ length: 6 }, (_, i) => Number((bits >> BigInt(8 * (5 - i))) & 255n));
  return newSheetId(bytes);
}

/** The other way round; null when the id is not that of a colour test sheet whose patches this program knows. */
export function colourSheetRecipe(sheetId: string): ColourSheetRecipe | null {
  if (!isSheetId(sheetId)) return null;
  let bits = 0n;
  for (let i = 8; i >= 0; i -= 1) bits = (bits << 5n) | BigInt(alphabet.indexOf(sheetId[i]!));
  const recipe: ColourSheetRecipe = {
    seed: Number(bits & BigInt(largestColourSheetSeed)),
    material: (bits >> 21n) & 1n ? 'fabric' : 'hard',
    count: Number((bits >> 22n) & 1023n),
  };
  if (recipe.count < colourSheetCounts.fewest || recipe.count > colourSheetCounts.most) return null;
  return checksum(recipe) === Number(bits >> 32n) ? recipe : null;
}

/** Thirteen bits of FNV-1a (Fowler, Noll & Vo; draft-eastlake-fnv) over version, material and patches. */
function checksum({ count, seed, material }: ColourSheetRecipe): number {
  let hash = 0x811c9dc5;
  const add = (byte: number): void => {
    hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  };
  add(layoutVersion);
  add(material === 'fabric' ? 1 : 0);
  for (const { rgb } of choosePatches(count, seed)) for (const v of rgb) add(Math.round(255 * v));
  return (hash ^ (hash >>> 13) ^ (hash >>> 26)) & 0x1fff;
}
