/** PNG filter types used (PNG specification, third edition, clause 9); PDF's predictors 10–15 are the same. */
const sub = 1;
const up = 2;

/** Rows of `rowBytes` bytes, each led by its filter type. */
export function filterRows(bytes: Uint8Array, rowBytes: number, pixelBytes: number): Uint8Array {
  const rows = bytes.length / rowBytes;
  const out = new Uint8Array(bytes.length + rows);
  const useUp = preferUp(bytes, rowBytes, pixelBytes, rows);
  // Four bytes at a time where rows stand on whole words.
  const inWords = rowBytes % 4 === 0 && bytes.byteOffset % 4 === 0;
  const words = inWords ? new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length / 4) : null;
  const line = new Uint32Array(rowBytes >> 2);
  const lineBytes = new Uint8Array(line.buffer);
  let from = 0;
  let to = 0;
  for (let row = 0; row < rows; row += 1) {
    // The row above a band belongs to another worker, so a band's first row leans on itself only.
    const filter = row > 0 && useUp ? up : sub;
    out[to] = filter;
    to += 1;
    if (filter === up) {
      if (words === null) {
        const above = from - rowBytes;
        for (let index = 0; index < rowBytes; index += 1) {
          out[to + index] = bytes[from + index]! - bytes[above + index]!;
        }
      } else {
        differences(words, row, line);
        out.set(lineBytes, to);
      }
    } else {
      for (let index = 0; index < pixelBytes; index += 1) out[to + index] = bytes[from + index]!;
      for (let index = pixelBytes; index < rowBytes; index += 1) {
        out[to + index] = bytes[from + index]! - bytes[from + index - pixelBytes]!;
      }
    }
    from += rowBytes;
    to += rowBytes;
  }
  return out;
}

/** A row less the row above, byte by byte in words: the high bits are kept from borrowing and mended after. */
function differences(words: Uint32Array, row: number, line: Uint32Array): void {
  const from = row * line.length;
  const above = from - line.length;
  for (let index = 0; index < line.length; index += 1) {
    const x = words[from + index]!;
    const y = words[above + index]!;
    line[index] = ((x | 0x80808080) - (y & 0x7f7f7f7f)) ^ ((x ^ ~y) & 0x80808080);
  }
}

/** Least sum of absolute differences (the PNG specification's own advice), judged on every eighth row. */
function preferUp(bytes: Uint8Array, rowBytes: number, pixelBytes: number, rows: number): boolean {
  let upSum = 0;
  let subSum = 0;
  for (let row = 1; row < rows; row += 8) {
    const from = row * rowBytes;
    for (let index = from + pixelBytes; index < from + rowBytes; index += 1) {
      const value = bytes[index]!;
      upSum += Math.abs(((value - bytes[index - rowBytes]!) << 24) >> 24);
      subSum += Math.abs(((value - bytes[index - pixelBytes]!) << 24) >> 24);
    }
  }
  return upSum <= subSum;
}

/** 16-bit samples, most significant byte first, as PNG and PDF want them. */
export function bigEndian(samples: Uint16Array): Uint8Array {
  const bytes = Buffer.from(new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength));
  return bytes.swap16();
}
