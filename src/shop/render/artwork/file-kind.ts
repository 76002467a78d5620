import { open } from 'node:fs/promises';
import { Problem } from '#craft/problem';
import type { ArtworkFacts } from '../types.js';

type Format = ArtworkFacts['format'];

/** What a file is by its first bytes; names are not believed. */
export async function fileKind(path: string): Promise<Format> {
  const head = await firstBytes(path, 1024);
  if (head.length === 0) {
    throw new Problem('image.unreadable', 'The file is empty.', {
      remedy: 'Export it again, then add it again.',
    });
  }
  const known = signatures.find(({ matches }) => matches(head));
  if (known !== undefined) return known.format;
  const other = strangers.find(({ matches }) => matches(head));
  throw new Problem(
    'image.wrong-type',
    other === undefined
      ? 'The file is not a picture this program reads.'
      : `The file is ${other.name}, which this program does not read.`,
    { remedy: 'Export it as PNG, JPEG, TIFF, WebP, GIF or SVG and add that.' },
  );
}

const starts = (text: string) => (head: Buffer) =>
  head.subarray(0, text.length).equals(Buffer.from(text, 'latin1'));
const at = (offset: number, text: string) => (head: Buffer) =>
  head.toString('latin1', offset, offset + text.length) === text;

const signatures: readonly { format: Format; matches: (head: Buffer) => boolean }[] = [
  { format: 'png', matches: starts('\x89PNG\r\n\x1a\n') },
  { format: 'jpeg', matches: starts('\xff\xd8\xff') },
  {
    format: 'tiff',
    matches: (head) => ['II*\0', 'MM\0*', 'II+\0', 'MM\0+'].some((text) => starts(text)(head)),
  },
  { format: 'webp', matches: (head) => starts('RIFF')(head) && at(8, 'WEBP')(head) },
  { format: 'gif', matches: (head) => starts('GIF87a')(head) || starts('GIF89a')(head) },
  { format: 'svg', matches: (head) => looksLikeSvg(head) },
];

const strangers: readonly { name: string; matches: (head: Buffer) => boolean }[] = [
  { name: 'a PDF', matches: (head) => head.includes('%PDF-') },
  { name: 'an HEIC or AVIF photo', matches: at(4, 'ftyp') },
  { name: 'a layered picture (PSD)', matches: starts('8BPS') },
  { name: 'a JPEG XL picture', matches: (head) => starts('\xff\x0a')(head) || at(4, 'JXL ')(head) },
  { name: 'a Windows bitmap', matches: starts('BM') },
  { name: 'a zip archive', matches: starts('PK\x03\x04') },
  { name: 'a compressed file', matches: starts('\x1f\x8b') },
  { name: 'a web page', matches: (head) => /<!doctype html|<html/i.test(head.toString('latin1')) },
];

function looksLikeSvg(head: Buffer): boolean {
  const encoding =
    head[0] === 0xff && head[1] === 0xfe
      ? 'utf-16le'
      : head[0] === 0xfe && head[1] === 0xff
        ? 'utf-16be'
        : 'utf-8';
  const text = new TextDecoder(encoding).decode(head).trimStart();
  return /^<(\?xml|!--|!doctype svg|svg)/i.test(text) && /<svg[\s>:]/i.test(text);
}

async function firstBytes(path: string, length: number): Promise<Buffer> {
  try {
    const handle = await open(path, 'r');
    try {
      const { buffer, bytesRead } = await handle.read(Buffer.alloc(length), 0, length, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw new Problem('file.missing', 'The picture file cannot be opened.', {
      remedy: 'Check that it is still there and may be read.',
      cause: error,
    });
  }
}
