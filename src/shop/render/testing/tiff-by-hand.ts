/** A baseline TIFF 6.0 of given samples, written here byte by byte so that no library stands on both sides of a test. */
export interface HandTiff {
  readonly width: number;
  readonly height: number;
  readonly samples: Uint8Array | Uint16Array;
  readonly channels: number;
  /** 1 grey (black is zero), 2 RGB, 5 separated (CMYK). */
  readonly photometric: 1 | 2 | 5;
  readonly icc?: Uint8Array;
  /** The last channel is alpha, not premultiplied. */
  readonly alpha?: boolean;
  /** ExtraSamples as given, at most two; empty: no such tag. */
  readonly extra?: readonly number[];
}

export function tiffByHand(picture: HandTiff): Buffer {
  const { width, height, samples, channels, photometric, icc } = picture;
  const extra = picture.extra ?? (picture.alpha ? [2] : []);
  const bits = samples.BYTES_PER_ELEMENT * 8;
  const pixels = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  const far: Buffer[] = [];
  const tags: [tag: number, type: 3 | 4 | 7, count: number, value: number | Buffer][] = [
    [256, 3, 1, width],
    [257, 3, 1, height],
    [258, 3, channels, shorts(Array.from({ length: channels }, () => bits))],
    [259, 3, 1, 1],
    [262, 3, 1, photometric],
    [273, 4, 1, pixels],
    [277, 3, 1, channels],
    [278, 4, 1, height],
    [279, 4, 1, pixels.length],
    ...(extra.length > 0 ? ([[338, 3, extra.length, shorts(extra)]] as [338, 3, number, Buffer][]) : []),
    ...(icc ? ([[34675, 7, icc.length, Buffer.from(icc)]] as [number, 7, number, Buffer][]) : []),
  ];
  const directory = Buffer.alloc(8 + 2 + tags.length * 12 + 4);
  directory.write('II*\0', 'latin1');
  directory.writeUInt32LE(8, 4);
  directory.writeUInt16LE(tags.length, 8);
  let next = directory.length;
  tags.forEach(([tag, type, count, value], index) => {
    const at = 10 + index * 12;
    directory.writeUInt16LE(tag, at);
    directory.writeUInt16LE(type, at + 2);
    directory.writeUInt32LE(count, at + 4);
    if (typeof value === 'number') {
      if (type === 3) directory.writeUInt16LE(value, at + 8);
      else directory.writeUInt32LE(value, at + 8);
    } else if (type === 3 && value.length <= 4) {
      value.copy(directory, at + 8);
    } else {
      directory.writeUInt32LE(next, at + 8);
      const even = value.length % 2 === 0 ? value : Buffer.concat([value, Buffer.alloc(1)]);
      far.push(even);
      next += even.length;
    }
  });
  return Buffer.concat([directory, ...far]);
}

function shorts(values: readonly number[]): Buffer {
  return Buffer.from(Uint16Array.from(values).buffer);
}

/** Repeatable noise (a linear congruential generator, constants from Numerical Recipes; from memory). */
export function noise<T extends Uint8Array | Uint16Array>(into: T, seed: number): T {
  let state = seed >>> 0;
  const top = into.BYTES_PER_ELEMENT === 1 ? 24 : 16;
  for (let index = 0; index < into.length; index += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    into[index] = state >>> top;
  }
  return into;
}
