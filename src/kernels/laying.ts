/** Any table that goes into the shared memory. */
export type TableArray = Uint8Array | Uint16Array | Int16Array | Uint32Array | Float32Array;

/** Tables and their places in a memory that is made once all are known. */
export class Laying {
  readonly #pieces: { readonly at: number; readonly table: TableArray }[] = [];
  #end = 1024;

  /** Bytes up to the end of all that was placed. */
  get end(): number {
    return this.#end;
  }

  /** Give a table its place (cache-line aligned); returns the byte address. */
  place(table: TableArray): number {
    const at = this.#end;
    this.#pieces.push({ at, table });
    this.#end = roundToLine(at + table.byteLength);
    return at;
  }

  /** Copy every table to its place. */
  writeTo(buffer: SharedArrayBuffer): void {
    const bytes = new Uint8Array(buffer);
    for (const { at, table } of this.#pieces) {
      bytes.set(new Uint8Array(table.buffer, table.byteOffset, table.byteLength), at);
    }
  }
}

/** A block of parameters: 32-bit words, each an address or count (u32) or a single-precision number. */
export class Params {
  readonly words = new Uint32Array(48);
  readonly #floats = new Float32Array(this.words.buffer);

  u32(byteOffset: number, value: number): void {
    this.words[byteOffset / 4] = value;
  }

  f32(byteOffset: number, value: number): void {
    this.#floats[byteOffset / 4] = value;
  }
}

/** Up to the next 64 bytes, so that no two slots or tables share a cache line. */
export function roundToLine(bytes: number): number {
  return Math.ceil(bytes / 64) * 64;
}
