/** Big-endian writing into a growing stretch of bytes. */
export interface ByteWriter {
  readonly length: number;
  u8(...values: number[]): void;
  u16(...values: number[]): void;
  u32(...values: number[]): void;
  /** s15Fixed16Number, ICC.1:2022 4.6; rounded to the nearest. */
  s15f16(...values: number[]): void;
  /** Four characters. */
  signature(text: string): void;
  bytes(data: Uint8Array): void;
  /** Zeros up to the next multiple of four. */
  align(): void;
  setU32(at: number, value: number): void;
  done(): Uint8Array;
}

export function writeBytes(): ByteWriter {
  let buffer = new Uint8Array(1024);
  let view = new DataView(buffer.buffer);
  let length = 0;
  const room = (more: number): number => {
    if (length + more > buffer.length) {
      const larger = new Uint8Array(Math.max(buffer.length * 2, length + more));
      larger.set(buffer.subarray(0, length));
      buffer = larger;
      view = new DataView(buffer.buffer);
    }
    const at = length;
    length += more;
    return at;
  };
  return {
    get length() {
      return length;
    },
    u8(...values) {
      for (const v of values) {
        const at = room(1);
        view.setUint8(at, v);
      }
    },
    u16(...values) {
      for (const v of values) {
        const at = room(2);
        view.setUint16(at, v);
      }
    },
    u32(...values) {
      for (const v of values) {
        const at = room(4);
        view.setUint32(at, v);
      }
    },
    s15f16(...values) {
      for (const v of values) {
        const at = room(4);
        view.setInt32(at, Math.round(Math.min(32767.9999, Math.max(-32768, v)) * 65536));
      }
    },
    signature(text) {
      const at = room(4);
      for (let i = 0; i < 4; i += 1) view.setUint8(at + i, (text.charCodeAt(i) || 32) & 255);
    },
    bytes(data) {
      const at = room(data.length);
      buffer.set(data, at);
    },
    align() {
      room((4 - (length % 4)) % 4);
    },
    setU32(at, value) {
      view.setUint32(at, value);
    },
    done: () => buffer.slice(0, length),
  };
}
