import { Problem } from '#craft/problem';

/**
 * Crockford's base 32 (Douglas Crockford, "Base 32", crockford.com/base32.html): digits and capitals without
 * I, L, O and U, so an id can be read aloud and typed back.
 */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const randomCharacters = 9;
export const sheetIdLength = randomCharacters + 1;
/** Bytes `newSheetId` uses: 45 bits. */
export const sheetIdBytes = 6;

/**
 * A sheet id from random bytes: nine characters of 5 bits and a check character.
 *
 * The check makes Σ αⁱ·cᵢ = 0 over GF(32) (a Reed–Solomon parity of one symbol): any one wrong character and any
 * two characters swapped are noticed.
 *
 * @param randomBytes at least six bytes; only the first six are used. @throws Problem when there are fewer.
 */
export function newSheetId(randomBytes: Uint8Array): string {
  if (randomBytes.length < sheetIdBytes) {
    throw new Problem('internal.fault', 'A sheet id needs six random bytes.', {
      remedy: 'Give six bytes.',
    });
  }
  let bits = 0n;
  for (const byte of randomBytes.subarray(0, sheetIdBytes)) bits = (bits << 8n) | BigInt(byte);
  const values: number[] = [];
  for (let i = 0; i < randomCharacters; i += 1) values.push(Number((bits >> BigInt(5 * i)) & 31n));
  return [...values, checkValue(values)].map((value) => alphabet[value]).join('');
}

/** True for an id in its written form: ten capitals and digits whose check agrees. */
export function isSheetId(text: string): boolean {
  if (text.length !== sheetIdLength) return false;
  const values = [...text].map((character) => alphabet.indexOf(character));
  if (values.some((value) => value < 0)) return false;
  return checkValue(values.slice(0, randomCharacters)) === values[randomCharacters];
}

/**
 * What a person typed, as a sheet id, or null. Small letters, spaces and hyphens are forgiven, and so are the
 * look-alikes O for 0, I and L for 1.
 */
export function parseSheetId(typed: string): string | null {
  const text = typed.toUpperCase().replace(/[\s-]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  return isSheetId(text) ? text : null;
}

/** In two groups of five, as printed and read aloud. */
export function spokenSheetId(id: string): string {
  return `${id.slice(0, 5)} ${id.slice(5)}`;
}

/** c₉ with Σ_{i<10} αⁱ·cᵢ = 0, that is c₉ = α⁻⁹ · Σ_{i<9} αⁱ·cᵢ (addition is XOR). */
function checkValue(values: readonly number[]): number {
  const sum = values.reduce((total, value, i) => total ^ timesAlpha(value, i), 0);
  // α³¹ = 1, so α⁻⁹ = α²².
  return timesAlpha(sum, 31 - randomCharacters);
}

/** Multiply by αⁿ in GF(32) with the primitive polynomial x⁵ + x² + 1. */
function timesAlpha(value: number, power: number): number {
  let product = value;
  for (let i = 0; i < power; i += 1) product = product & 16 ? ((product << 1) ^ 0b100101) & 31 : product << 1;
  return product;
}
