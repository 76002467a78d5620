/** MD5 (RFC 1321): the profile ID is defined by it (ICC.1:2022 7.2.18). Not for secrets. */
export function md5(bytes: Uint8Array): Uint8Array {
  const padded = new Uint8Array(((bytes.length + 8) >> 6) * 64 + 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, (bytes.length << 3) >>> 0, true);
  view.setUint32(padded.length - 4, Math.floor(bytes.length / 0x20000000), true);
  const state = new Int32Array([0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476]);
  for (let at = 0; at < padded.length; at += 64) round(view, at, state);
  const digest = new Uint8Array(16);
  const out = new DataView(digest.buffer);
  state.forEach((word, i) => {
    out.setInt32(4 * i, word, true);
  });
  return digest;
}

/** RFC 1321, 3.4: the table is made from the sine function. */
const sines = Int32Array.from({ length: 64 }, (_, i) => Math.floor(Math.abs(Math.sin(i + 1)) * 2 ** 32) | 0);
const turns = [7, 12, 17, 22, 5, 9, 14, 20, 4, 11, 16, 23, 6, 10, 15, 21];

function round(view: DataView, at: number, state: Int32Array): void {
  let [a = 0, b = 0, c = 0, d = 0] = state;
  for (let i = 0; i < 64; i += 1) {
    const part = i >> 4;
    let mixed: number;
    let word: number;
    if (part === 0) [mixed, word] = [(b & c) | (~b & d), i];
    else if (part === 1) [mixed, word] = [(d & b) | (~d & c), (5 * i + 1) & 15];
    else if (part === 2) [mixed, word] = [b ^ c ^ d, (3 * i + 5) & 15];
    else [mixed, word] = [c ^ (b | ~d), (7 * i) & 15];
    const sum = (a + mixed + sines[i]! + view.getInt32(at + 4 * word, true)) | 0;
    const turn = turns[part * 4 + (i & 3)]!;
    [a, d, c, b] = [d, c, b, (b + ((sum << turn) | (sum >>> (32 - turn)))) | 0];
  }
  state[0] = (state[0]! + a) | 0;
  state[1] = (state[1]! + b) | 0;
  state[2] = (state[2]! + c) | 0;
  state[3] = (state[3]! + d) | 0;
}
