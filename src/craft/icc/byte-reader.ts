import { brokenProfile } from './broken.js';

/** Big-endian reading inside one stretch of bytes; a step over its end is a Problem, never `undefined`. */
export interface ByteReader {
  readonly length: number;
  readonly where: string;
  u8(at: number): number;
  u16(at: number): number;
  u32(at: number): number;
  /** s15Fixed16Number, ICC.1:2022 4.6. */
  s15f16(at: number): number;
  /** Four characters as they stand. */
  signature(at: number): string;
  /** A reader over part of this one. */
  part(at: number, length: number, where: string): ByteReader;
  /** Throws unless `length` bytes are there from `at`. */
  need(at: number, length: number): void;
}

export function readBytes(bytes: Uint8Array, where: string): ByteReader {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const need = (at: number, length: number): void => {
    if (!(at >= 0 && length >= 0 && at + length <= bytes.byteLength)) {
      throw brokenProfile(`${where} ends before its data do`, where);
    }
  };
  return {
    length: bytes.byteLength,
    where,
    need,
    u8(at) {
      need(at, 1);
      return view.getUint8(at);
    },
    u16(at) {
      need(at, 2);
      return view.getUint16(at);
    },
    u32(at) {
      need(at, 4);
      return view.getUint32(at);
    },
    s15f16(at) {
      need(at, 4);
      return view.getInt32(at) / 65536;
    },
    signature(at) {
      need(at, 4);
      return String.fromCharCode(
        view.getUint8(at),
        view.getUint8(at + 1),
        view.getUint8(at + 2),
        view.getUint8(at + 3),
      );
    },
    part(at, length, name) {
      need(at, length);
      return readBytes(bytes.subarray(at, at + length), name);
    },
  };
}
