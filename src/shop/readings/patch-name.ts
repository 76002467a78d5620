/** A patch by its place as the sheet reads: column letters, then the row from 1: 'A1', 'AB12'. */
export function patchName(column: number, row: number): string {
  let letters = '';
  for (let rest = column; rest >= 0; rest = Math.floor(rest / 26) - 1) {
    letters = String.fromCharCode(65 + (rest % 26)) + letters;
  }
  return `${letters}${row + 1}`;
}
