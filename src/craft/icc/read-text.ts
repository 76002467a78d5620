import { brokenProfile } from './broken.js';
import type { ByteReader } from './byte-reader.js';

const longest = 4000;

/** textType, textDescriptionType (ICC.1:2001-04 6.5.17) or multiLocalizedUnicodeType (ICC.1:2022 10.15). */
export function readText(tag: ByteReader): string {
  const type = tag.signature(0);
  if (type === 'text') return ascii(tag, 8, tag.length - 8);
  if (type === 'desc') {
    const count = tag.u32(8);
    tag.need(12, count);
    return ascii(tag, 12, count);
  }
  if (type === 'mluc') return multiLocalised(tag);
  throw brokenProfile(`${tag.where} is of type “${printable(type)}”, which holds no text`, tag.where);
}

function multiLocalised(tag: ByteReader): string {
  const count = tag.u32(8);
  const recordBytes = tag.u32(12);
  if (count === 0) return '';
  if (recordBytes !== 12 || count > 1000)
    throw brokenProfile(`${tag.where} has an absurd count of languages`, tag.where);
  let best: { at: number; bytes: number } | undefined;
  for (let i = 0; i < count; i += 1) {
    const at = 16 + 12 * i;
    const language = tag.signature(at).slice(0, 2);
    const entry = { bytes: tag.u32(at + 4), at: tag.u32(at + 8) };
    tag.need(entry.at, entry.bytes);
    if (best === undefined) best = entry;
    if (language === 'en') {
      best = entry;
      break;
    }
  }
  return best === undefined ? '' : utf16(tag, best.at, best.bytes);
}

function ascii(tag: ByteReader, at: number, length: number): string {
  let text = '';
  for (let i = 0; i < Math.min(length, longest); i += 1) {
    const code = tag.u8(at + i);
    if (code === 0) break;
    text += String.fromCharCode(code);
  }
  return printable(text);
}

function utf16(tag: ByteReader, at: number, bytes: number): string {
  let text = '';
  for (let i = 0; i + 1 < Math.min(bytes, 2 * longest); i += 2) {
    const code = tag.u16(at + i);
    if (code === 0) break;
    text += String.fromCharCode(code);
  }
  return printable(text);
}

/** Without control characters or half surrogates: it will be shown to a person. */
function printable(text: string): string {
  return text.replaceAll(/\p{Cc}|\p{Cs}/gu, ' ').trim();
}
