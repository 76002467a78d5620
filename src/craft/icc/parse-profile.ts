import { brokenProfile, unsupportedProfile } from './broken.js';
import { type ByteReader, readBytes } from './byte-reader.js';
import { readCurve } from './read-curve.js';
import { readLut, type ValueBudget } from './read-lut.js';
import { readText } from './read-text.js';
import type { IccHeader, IccProfile, IccTag } from './types.js';

const headerBytes = 128;
/** Bounds on what is believed: real profiles have under 40 tags and are under 10 MB. */
const mostTags = 100;
const mostBytes = 64 * 1024 * 1024;
const mostValues = 16_000_000;

const readers: Readonly<Record<string, (tag: ByteReader, budget: ValueBudget) => IccTag>> = {
  desc: readTextTag,
  cprt: readTextTag,
  wtpt: readXyz,
  bkpt: readXyz,
  rXYZ: readXyz,
  gXYZ: readXyz,
  bXYZ: readXyz,
  rTRC: readCurveTag,
  gTRC: readCurveTag,
  bTRC: readCurveTag,
  kTRC: readCurveTag,
  chad: readNumbers,
  A2B0: readLut,
  A2B1: readLut,
  A2B2: readLut,
  B2A0: readLut,
  B2A1: readLut,
  B2A2: readLut,
};

/**
 * Takes a profile apart (ICC.1:2001-04 and ICC.1:2022, clause 7). Tags not used here are listed and left alone.
 *
 * @throws Problem `profile.broken` if it is malformed; `profile.unsupported` for device links, named colours
 *   and version 5.
 */
export function parseProfile(bytes: Uint8Array): IccProfile {
  if (bytes.byteLength < headerBytes + 4) throw brokenProfile('it is shorter than a header');
  if (bytes.byteLength > mostBytes) throw brokenProfile('it is larger than any real profile');
  const whole = readBytes(bytes, 'the file');
  if (whole.signature(36) !== 'acsp') throw brokenProfile('it does not carry the mark of an ICC profile');
  const stated = whole.u32(0);
  if (stated > bytes.byteLength) {
    throw brokenProfile(`it says it is ${stated} bytes long but only ${bytes.byteLength} are there`);
  }
  if (stated < headerBytes + 4) throw brokenProfile('its header states an impossible length');
  const file = whole.part(0, stated, 'the file');
  return { header: readHeader(file, stated), tags: readTags(file) };
}

function readHeader(file: ByteReader, byteLength: number): IccHeader {
  const major = file.u8(8);
  if (major === 5) {
    throw unsupportedProfile('This is an ICC profile of version 5.', 'Export it as version 4 or version 2.');
  }
  if (major < 2 || major > 5) throw brokenProfile(`its version (${major}) does not exist`);
  const deviceClass = file.signature(12);
  if (deviceClass === 'link' || deviceClass === 'nmcl') {
    throw unsupportedProfile(
      `This is a ${deviceClass === 'link' ? 'device link' : 'list of named colours'}, not the profile of a device.`,
      'Choose the ICC profile of the printer or the image.',
    );
  }
  if (!['mntr', 'prtr', 'scnr', 'spac', 'abst'].includes(deviceClass))
    throw brokenProfile('its class does not exist');
  const pcs = file.signature(20);
  if (pcs !== 'XYZ ' && pcs !== 'Lab ') throw brokenProfile('its connection space is neither XYZ nor Lab');
  return {
    byteLength,
    version: { major, minor: file.u8(9) >> 4, fix: file.u8(9) & 15 },
    deviceClass,
    colourSpace: file.signature(16).trimEnd(),
    pcs: pcs === 'XYZ ' ? 'XYZ' : 'Lab',
    renderingIntent: file.u16(66),
  };
}

function readTags(file: ByteReader): ReadonlyMap<string, IccTag> {
  const count = file.u32(headerBytes);
  if (count > mostTags) throw brokenProfile(`it claims to have ${count} tags`);
  const tags = new Map<string, IccTag>();
  const seen = new Map<unknown, Map<string, IccTag>>();
  const budget: ValueBudget = { left: mostValues };
  for (let i = 0; i < count; i += 1) {
    const entry = headerBytes + 4 + 12 * i;
    const signature = file.signature(entry);
    const at = file.u32(entry + 4);
    const size = file.u32(entry + 8);
    const name = /^[\x20-\x7e]{4}$/.test(signature) ? `its ‘${signature}’ part` : 'one of its parts';
    if (at + size > file.length) throw brokenProfile(`${name} lies beyond the end of the file`, signature);
    if (size < 8 || at < headerBytes) throw brokenProfile(`${name} is misplaced`, signature);
    if (tags.has(signature)) throw brokenProfile(`${name} is there twice`, signature);
    const tag = file.part(at, size, name);
    const read = readers[signature];
    if (read === undefined) {
      tags.set(signature, { kind: 'other', type: tag.signature(0) });
      continue;
    }
    // Several tags may share one stretch (7.3.1): it is read once and shared, for readers of the same form.
    const already = seen.get(read) ?? new Map<string, IccTag>();
    const value = already.get(`${at} ${size}`) ?? read(tag, budget);
    seen.set(read, already.set(`${at} ${size}`, value));
    tags.set(signature, value);
  }
  return tags;
}

function readTextTag(tag: ByteReader): IccTag {
  return { kind: 'text', text: readText(tag) };
}

function readCurveTag(tag: ByteReader): IccTag {
  return { kind: 'curve', curve: readCurve(tag).curve };
}

function readXyz(tag: ByteReader): IccTag {
  if (tag.signature(0) !== 'XYZ ') throw brokenProfile(`${tag.where} is no XYZ value`, tag.where);
  return { kind: 'xyz', xyz: [tag.s15f16(8), tag.s15f16(12), tag.s15f16(16)] };
}

function readNumbers(tag: ByteReader): IccTag {
  if (tag.signature(0) !== 'sf32') throw brokenProfile(`${tag.where} is no list of numbers`, tag.where);
  const count = Math.floor((tag.length - 8) / 4);
  if (count !== 9) throw brokenProfile(`${tag.where} should be nine numbers and is ${count}`, tag.where);
  return { kind: 'numbers', values: Array.from({ length: 9 }, (_, i) => tag.s15f16(8 + 4 * i)) };
}
