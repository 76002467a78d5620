import { converter } from 'culori';

const toRgb = converter('rgb');
const toLab = converter('lab');

/**
 * A made-up press: what to send for a colour, given as D50 Lab. Lifted black, soft bend, some crosstalk; bare paper
 * for white, since Little CMS makes white so in any case (its white-on-white repair).
 */
export function pressRgb(lightness: number, a: number, b: number): [number, number, number] {
  const { r, g, b: blue } = toRgb({ mode: 'lab', l: lightness, a, b });
  const [x, y, z] = [r, g, blue].map((v) => 0.05 + 0.95 * Math.min(Math.max(v, 0), 1) ** 1.15) as [
    number,
    number,
    number,
  ];
  return [0.9 * x + 0.1 * y, 0.05 * x + 0.9 * y + 0.05 * z, 0.08 * y + 0.92 * z];
}

/** The same press asked for an sRGB colour, 0..1. */
export function pressRgbOfSrgb(r: number, g: number, b: number): [number, number, number] {
  const lab = toLab({ mode: 'rgb', r, g, b });
  return pressRgb(lab.l, lab.a, lab.b);
}

/** The least ICC output profile that holds the press as a table: version 2, one B2A0 of lut16Type (ICC.1:2001-04, 6.5.8). */
export function pressProfile(gridPoints = 33): Uint8Array {
  const lutBytes = 52 + 2 * (3 * 2 + gridPoints ** 3 * 3 + 3 * 2);
  const head = 128 + 4 + 2 * 12;
  const lutAt = head + 20;
  const bytes = new Uint8Array(Math.ceil((lutAt + lutBytes) / 4) * 4);
  const view = new DataView(bytes.buffer);
  const text = (at: number, four: string) =>
    bytes.set(
      [...four].map((c) => c.charCodeAt(0)),
      at,
    );
  const d50 = [0xf6d6, 0x10000, 0xd32d];
  view.setUint32(0, bytes.length);
  view.setUint32(8, 0x02400000);
  text(12, 'prtr');
  text(16, 'RGB ');
  text(20, 'Lab ');
  text(36, 'acsp');
  for (const [i, value] of d50.entries()) view.setInt32(68 + i * 4, value);
  view.setUint32(128, 2);
  text(132, 'wtpt');
  view.setUint32(136, head);
  view.setUint32(140, 20);
  text(144, 'B2A0');
  view.setUint32(148, lutAt);
  view.setUint32(152, lutBytes);
  text(head, 'XYZ ');
  for (const [i, value] of d50.entries()) view.setInt32(head + 8 + i * 4, value);

  text(lutAt, 'mft2');
  bytes.set([3, 3, gridPoints], lutAt + 8);
  for (let i = 0; i < 9; i += 4) view.setInt32(lutAt + 12 + i * 4, 0x10000);
  view.setUint16(lutAt + 48, 2);
  view.setUint16(lutAt + 50, 2);
  let at = lutAt + 52;
  const put = (value: number) => {
    view.setUint16(at, value);
    at += 2;
  };
  const ramps = () => {
    for (let c = 0; c < 3; c += 1) {
      put(0);
      put(65535);
    }
  };
  ramps();
  // 16-bit Lab of version 2: 0xFF00 is L* 100, and a*, b* are offset by 128 at 256 a unit.
  for (let l = 0; l < gridPoints; l += 1) {
    for (let a = 0; a < gridPoints; a += 1) {
      for (let b = 0; b < gridPoints; b += 1) {
        const lab = [l, a, b].map((v) => (v / (gridPoints - 1)) * 65535) as [number, number, number];
        const rgb = pressRgb((lab[0] / 65280) * 100, lab[1] / 256 - 128, lab[2] / 256 - 128);
        for (const value of rgb) put(Math.round(value * 65535));
      }
    }
  }
  ramps();
  return bytes;
}
