import sharp from 'sharp';

/** Decoded device numbers of a written file; sharp (libvips) as the outside reader. */
export interface Decoded {
  readonly width: number;
  readonly height: number;
  readonly samples: Uint8Array | Uint16Array;
  at(x: number, y: number): number[];
}

export async function decode(file: string | Buffer, bits: 8 | 16 = 8): Promise<Decoded> {
  const space = bits === 16 ? 'rgb16' : 'srgb';
  const { data, info } = await sharp(file, { ignoreIcc: true })
    .pipelineColourspace(space)
    .toColourspace(space)
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const samples =
    bits === 8 ? new Uint8Array(data) : new Uint16Array(new Uint8Array(data).buffer, 0, data.length / 2);
  return {
    width: info.width,
    height: info.height,
    samples,
    at: (x, y) => Array.from(samples.subarray((y * info.width + x) * 3, (y * info.width + x) * 3 + 3)),
  };
}
