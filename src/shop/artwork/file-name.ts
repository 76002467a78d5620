/**
 * A file name as it may be shown: the last part of whatever path came along, without control characters or
 * marks that turn the direction of text (they can make 'gpj.exe' read 'exe.jpg'), at most 120 characters.
 * It is only ever shown and stored, never used as a path.
 */
export function displayFileName(name: string): string {
  const last = name.split(/[\\/]/).at(-1) ?? '';
  const plain = last
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cn}\p{Cs}]/gu, '')
    .replace(/\s+/gu, ' ')
    .trim();
  return [...plain].slice(0, 120).join('') || 'artwork';
}
