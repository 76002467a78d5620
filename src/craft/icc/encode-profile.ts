import { writeBytes } from './byte-writer.js';
import { encodeTag } from './encode-tag.js';
import { md5 } from './md5.js';
import type { IccProfile, IccTag } from './types.js';

export interface UtcMoment {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

/** A fixed moment, so that the same profile always has the same bytes. */
const noMoment: UtcMoment = { year: 2000, month: 1, day: 1, hour: 0, minute: 0, second: 0 };
const headerBytes = 128;

/**
 * The bytes of a profile built here (ICC.1:2022 clause 7; version 2 by ICC.1:2001-04 clause 6). Tags that are one and the
 * same object are written once and shared. Version 4 gets its profile ID.
 *
 * @throws RangeError if the profile was read and holds tags that were left alone on reading.
 */
export function encodeProfile(profile: IccProfile, createdAt: UtcMoment = noMoment): Uint8Array {
  const { header, tags } = profile;
  const out = writeBytes();
  out.u32(0, 0);
  out.u8(header.version.major, (header.version.minor << 4) | header.version.fix, 0, 0);
  out.signature(header.deviceClass);
  out.signature(header.colourSpace);
  out.signature(header.pcs);
  out.u16(createdAt.year, createdAt.month, createdAt.day, createdAt.hour, createdAt.minute, createdAt.second);
  out.signature('acsp');
  out.bytes(new Uint8Array(24));
  out.u32(header.renderingIntent);
  out.s15f16(0.9642, 1, 0.8249); // 7.2.16: the PCS illuminant
  out.bytes(new Uint8Array(headerBytes - out.length));

  out.u32(tags.size);
  const tableAt = out.length;
  out.bytes(new Uint8Array(12 * tags.size));
  const placed = new Map<IccTag, readonly [number, number]>();
  let entry = tableAt;
  for (const [signature, tag] of tags) {
    let place = placed.get(tag);
    if (place === undefined) {
      const data = encodeTag(tag, signature, header.version.major);
      place = [out.length, data.length];
      out.bytes(data);
      out.align();
      placed.set(tag, place);
    }
    out.setU32(entry, signatureNumber(signature));
    out.setU32(entry + 4, place[0]);
    out.setU32(entry + 8, place[1]);
    entry += 12;
  }
  out.setU32(0, out.length);
  const bytes = out.done();
  if (header.version.major >= 4) bytes.set(profileId(bytes), 84);
  return bytes;
}

/** ICC.1:2022 7.2.18: MD5 of the file with flags (44), intent (64) and the ID itself (84) taken as zero. */
export function profileId(bytes: Uint8Array): Uint8Array {
  const bare = bytes.slice();
  bare.fill(0, 44, 48);
  bare.fill(0, 64, 68);
  bare.fill(0, 84, 100);
  return md5(bare);
}

const signatureNumber = (text: string): number =>
  [0, 1, 2, 3].reduce((n, i) => n * 256 + (text.charCodeAt(i) || 32), 0);
