import { type ByteWriter, writeBytes } from './byte-writer.js';
import { encodeCurve } from './encode-curve.js';
import { encodeLut } from './encode-lut.js';
import type { IccTag } from './types.js';

/** One tag's bytes. Version 2 knows neither parametric curves nor several languages, so there they are written its way. */
export function encodeTag(tag: IccTag, signature: string, major: number): Uint8Array {
  const out = writeBytes();
  switch (tag.kind) {
    case 'text':
      if (major >= 4) encodeMultiLocalised(out, tag.text);
      else if (signature === 'desc') encodeTextDescription(out, tag.text);
      else encodePlainText(out, tag.text);
      break;
    case 'xyz':
      out.signature('XYZ ');
      out.u32(0);
      out.s15f16(...tag.xyz);
      break;
    case 'numbers':
      out.signature('sf32');
      out.u32(0);
      out.s15f16(...tag.values);
      break;
    case 'curve':
      encodeCurve(out, tag.curve, major >= 4);
      break;
    case 'lut':
      encodeLut(out, tag);
      break;
    case 'other':
      throw new RangeError(`a tag of type ${tag.type} was not kept and cannot be written`);
  }
  return out.done();
}

/** ICC.1:2022 10.15, one language. */
function encodeMultiLocalised(out: ByteWriter, text: string): void {
  out.signature('mluc');
  out.u32(0, 1, 12);
  out.u8(...[...'enUS'].map((c) => c.charCodeAt(0)));
  out.u32(text.length * 2, 28);
  for (let i = 0; i < text.length; i += 1) out.u16(text.charCodeAt(i));
}

/** ICC.1:2001-04 6.5.17: ASCII, then Unicode, then a Macintosh part left empty. */
function encodeTextDescription(out: ByteWriter, text: string): void {
  const plain = toAscii(text);
  out.signature('desc');
  out.u32(0, plain.length + 1);
  out.u8(...plain, 0);
  out.u32(0);
  if (plain.every((code, i) => code === text.charCodeAt(i))) {
    out.u32(0);
  } else {
    out.u32(text.length + 1);
    for (let i = 0; i < text.length; i += 1) out.u16(text.charCodeAt(i));
    out.u16(0);
  }
  out.u16(0);
  out.u8(0);
  out.bytes(new Uint8Array(67));
}

function encodePlainText(out: ByteWriter, text: string): void {
  out.signature('text');
  out.u32(0);
  out.u8(...toAscii(text), 0);
}

const toAscii = (text: string): number[] =>
  Array.from({ length: text.length }, (_, i) => {
    const code = text.charCodeAt(i);
    return code >= 32 && code < 127 ? code : 63;
  });
