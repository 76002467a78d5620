import type { GridLink } from '../link-shape.js';

/**
 * A grid as an ICC device link with one lut16Type tag (ICC.1:2022, 10.10), just enough for Little CMS to open:
 * the way to ask another program what the same table gives. Input curves are written with 16-bit samples.
 */
export function deviceLinkProfile(link: GridLink): Uint8Array {
  const { gridPoints, inputChannels, inputCurves, table } = link;
  const curveLength = inputCurves?.[0]?.length ?? 2;
  const lutBytes = 52 + 2 * (inputChannels * curveLength + table.length + 3 * 2);
  const tagAt = 128 + 4 + 12;
  const bytes = new Uint8Array(tagAt + Math.ceil(lutBytes / 4) * 4);
  const view = new DataView(bytes.buffer);
  const text = (at: number, four: string) => {
    for (let i = 0; i < 4; i += 1) bytes[at + i] = four.charCodeAt(i);
  };
  view.setUint32(0, bytes.length);
  view.setUint32(8, 0x02400000);
  text(12, 'link');
  text(16, { 1: 'GRAY', 3: 'RGB ', 4: 'CMYK' }[inputChannels]);
  text(20, 'RGB ');
  text(36, 'acsp');
  // PCS illuminant: D50 as the header must have it (ICC.1:2022, 7.2.16).
  for (const [i, value] of [0xf6d6, 0x10000, 0xd32d].entries()) view.setInt32(68 + i * 4, value);
  view.setUint32(128, 1);
  text(132, 'A2B0');
  view.setUint32(136, tagAt);
  view.setUint32(140, lutBytes);

  text(tagAt, 'mft2');
  bytes[tagAt + 8] = inputChannels;
  bytes[tagAt + 9] = 3;
  bytes[tagAt + 10] = gridPoints;
  for (let i = 0; i < 9; i += 4) view.setInt32(tagAt + 12 + i * 4, 0x10000);
  view.setUint16(tagAt + 48, curveLength);
  view.setUint16(tagAt + 50, 2);
  let at = tagAt + 52;
  const put = (value: number) => {
    view.setUint16(at, value);
    at += 2;
  };
  for (let c = 0; c < inputChannels; c += 1) {
    for (let i = 0; i < curveLength; i += 1) put(Math.round((inputCurves?.[c]?.[i] ?? i) * 65535));
  }
  for (const value of table) put(value);
  for (let c = 0; c < 3; c += 1) {
    put(0);
    put(65535);
  }
  return bytes;
}
