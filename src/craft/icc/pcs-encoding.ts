import { d50, labForward, labInverse } from '#craft/colour';
import type { InPlace } from './lut-function.js';
import type { IccLut } from './types.js';

/**
 * How the connection space stands in a table, as 0..1:
 *
 *   XYZ, 16 bit        1.0 is 1 + 32767/32768                      (ICC.1:2022 6.3.4.2, Table 11)
 *   Lab, lut16         L* 100 is FF00, a* b* 0 is 8000; 1.0 is FFFF (legacy, also in version 4: 10.10.1, Table 42)
 *   Lab, all others    L* 100 is 1.0, a* b* are (v + 128) / 255     (6.3.4.2, Tables 12 and 13)
 */
const xyzFull = 1 + 32767 / 32768;
const legacy = 65280 / 65535;

export type PcsEncoding = 'xyz' | 'lab' | 'lab-legacy';

export function pcsEncoding(pcs: 'XYZ' | 'Lab', type: IccLut['type']): PcsEncoding {
  if (pcs === 'XYZ') return 'xyz';
  return type === 'mft2' ? 'lab-legacy' : 'lab';
}

/** Table values → XYZ (Y = 1 for white) or Lab. */
export function decodePcs(encoding: PcsEncoding): InPlace {
  if (encoding === 'xyz') {
    return (io) => {
      io[0] = io[0]! * xyzFull;
      io[1] = io[1]! * xyzFull;
      io[2] = io[2]! * xyzFull;
    };
  }
  const scale = encoding === 'lab-legacy' ? 1 / legacy : 1;
  return (io) => {
    io[0] = io[0]! * scale * 100;
    io[1] = io[1]! * scale * 255 - 128;
    io[2] = io[2]! * scale * 255 - 128;
  };
}

/** XYZ or Lab → table values, not clipped. */
export function encodePcs(encoding: PcsEncoding): InPlace {
  if (encoding === 'xyz') {
    return (io) => {
      io[0] = io[0]! / xyzFull;
      io[1] = io[1]! / xyzFull;
      io[2] = io[2]! / xyzFull;
    };
  }
  const scale = encoding === 'lab-legacy' ? legacy : 1;
  return (io) => {
    io[0] = (io[0]! / 100) * scale;
    io[1] = ((io[1]! + 128) / 255) * scale;
    io[2] = ((io[2]! + 128) / 255) * scale;
  };
}

/** Lab ↔ XYZ in place, under the PCS white. */
export const labToXyzInPlace: InPlace = (io) => {
  const fy = (io[0]! + 16) / 116;
  const fx = fy + io[1]! / 500;
  const fz = fy - io[2]! / 200;
  io[0] = labInverse(fx) * d50[0];
  io[1] = labInverse(fy);
  io[2] = labInverse(fz) * d50[2];
};

export const xyzToLabInPlace: InPlace = (io) => {
  const fx = labForward(io[0]! / d50[0]);
  const fy = labForward(io[1]!);
  const fz = labForward(io[2]! / d50[2]);
  io[0] = 116 * fy - 16;
  io[1] = 500 * (fx - fy);
  io[2] = 200 * (fy - fz);
};
