// How fast pixels go through the kernels, and how that compares with libvips (Little CMS inside) applying an output
// profile that holds the same made-up press as a table.
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import sharp from 'sharp';
import type { DeviceLink, GridLink } from '#craft/icc';
import { attachKernel, createArena } from '#kernels';
import type { Task } from './lib/kernel-worker.js';
import { pressProfile, pressRgbOfSrgb } from './lib/lut-profile.js';
import { interleaved, save } from './lib/measure.js';
import { cellsTouched, flatArtwork, mixedChannels, photographPixels, randomBytes } from './lib/pixels.js';

const width = 4096;
const height = 2048;
const pixels = width * height;
const module = new WebAssembly.Module(readFileSync('dist/kernels/pixels.wasm'));
const folder = mkdtempSync(path.join(tmpdir(), 'kernels-bench-'));
const profilePath = path.join(folder, 'press.icc');
writeFileSync(profilePath, pressProfile());
sharp.cache(false);

const pressLink = grid(3, 33, ([r, g, b]) => pressRgbOfSrgb(r!, g!, b!));
const figures: Record<string, unknown> = {};
try {
  await againstLibvips();
  await everyLoop();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
save('kernels', figures);

async function againstLibvips(): Promise<void> {
  const photographs = await photographPixels(pixels);
  const pictures = {
    random: randomBytes(pixels * 3),
    photographs,
    'photographs, channels mixed': mixedChannels(photographs),
    'flat artwork': flatArtwork(pixels),
  };
  console.log(
    `RGB, 8 bits, ${(pixels / 1e6).toFixed(1)} MP, medians of 11 interleaved rounds. The machine may be noisy:`,
  );
  console.log(
    '"control" is arithmetic alone, in the same rounds; what it gains by a second thread is all there is.\n',
  );
  for (const [name, picture] of Object.entries(pictures)) {
    const agree = await difference(picture);
    const one = await startThreads(pressLink, picture, 1);
    const two = await startThreads(pressLink, picture, 2);
    const vips = (threads: number, profile: boolean) => async () => {
      sharp.concurrency(threads);
      await throughLibvips(picture, profile);
    };
    const times = await interleaved(
      {
        'libvips 1': vips(1, true),
        'libvips 2': vips(2, true),
        'libvips 1, no profile': vips(1, false),
        'libvips 2, no profile': vips(2, false),
        'kernel 1': () => one.run('in place'),
        'kernel 2': () => two.run('in place'),
        'copies 1': () => one.run('copies'),
        'copies 2': () => two.run('copies'),
        'control 1': () => one.run('control'),
        'control 2': () => two.run('control'),
      },
      11,
    );
    await Promise.all([one.stop(), two.stop()]);
    const rate = (key: keyof typeof times) => pixels / 1000 / times[key].medianMs;
    // What the profile alone costs libvips, its moving of pixels taken off: the hardest comparison.
    const net = (n: 1 | 2) =>
      pixels / 1000 / (times[`libvips ${n}`].medianMs - times[`libvips ${n}, no profile`].medianMs);
    const rows = ([1, 2] as const).map((n) => ({
      threads: n,
      'libvips MP/s': round(rate(`libvips ${n}`)),
      'profile alone MP/s': round(net(n)),
      'kernel MP/s': round(rate(`kernel ${n}`)),
      'with copies MP/s': round(rate(`copies ${n}`)),
      'kernel ÷ profile alone': round(rate(`kernel ${n}`) / net(n), 1),
      'with copies ÷ libvips': round(rate(`copies ${n}`) / rate(`libvips ${n}`), 1),
      'the same by CPU time': round(times[`libvips ${n}`].medianCpuMs / times[`copies ${n}`].medianCpuMs, 1),
    }));
    const by = (of: 'medianMs' | 'fastestMs') =>
      (['kernel', 'copies', 'control'] as const)
        .map((what) => `${what} ×${(times[`${what} 1`][of] / times[`${what} 2`][of]).toFixed(2)}`)
        .join(', ');
    const cells = cellsTouched(picture);
    console.log(
      `${name}: ${cells} of 32768 cells in the first MP; results differ by ${agree.mean} codes (most ${agree.most})`,
    );
    console.table(rows);
    console.log(`second thread, medians: ${by('medianMs')}; fastest rounds: ${by('fastestMs')}\n`);
    figures[name] = { cells, agree, rows, times };
  }
}

async function everyLoop(): Promise<void> {
  const cmykPress = grid(4, 17, ([c, m, y, k]) =>
    pressRgbOfSrgb((1 - c!) * (1 - k!), (1 - m!) * (1 - k!), (1 - y!) * (1 - k!)),
  );
  const power = (e: number) => Float32Array.from({ length: 4096 }, (_, i) => (i / 4095) ** e);
  const three = (curve: Float32Array) => [curve, curve, curve] as const;
  const links: Record<string, DeviceLink> = {
    identity: { kind: 'identity', inputChannels: 3 },
    shaper: {
      kind: 'shaper',
      inputChannels: 3,
      inputCurves: three(power(2.2)),
      matrix: Float32Array.of(0.8, 0.2, 0, 0.03, 0.97, 0, 0.02, 0.07, 0.91),
      outputCurves: three(power(2 / 2.2)),
    },
    grey: grid(1, 256, ([v]) => [v!, v!, v!]),
    'rgb 33': pressLink,
    'rgb 33, curves': { ...pressLink, inputCurves: three(power(0.9)) },
    'rgb 65': grid(3, 65, ([r, g, b]) => [r! * 0.9, g!, b!]),
    'cmyk 17': cmykPress,
    'cmyk 23': grid(4, 23, ([c, m, y, k]) => [(1 - c!) * (1 - k!), (1 - m!) * (1 - k!), (1 - y!) * (1 - k!)]),
  };
  const slotPixels = 1 << 18;
  const cases: Record<string, () => void> = {};
  for (const [name, link] of Object.entries(links)) {
    for (const bits of [8, 16] as const) {
      const kernel = attachKernel(createArena(link, { bits, slots: 1, slotPixels, module }), 0);
      const bytes = new Uint8Array(kernel.input.buffer, kernel.input.byteOffset, kernel.input.byteLength);
      bytes.set(randomBytes(bytes.length));
      cases[`${name}, ${bits} bits`] = () => {
        for (let i = 0; i < 4; i += 1) kernel.run(slotPixels, { flip: true });
      };
    }
  }
  const times = await interleaved(cases);
  const rows = Object.entries(times).map(([loop, { medianMs }]) => ({
    loop,
    'MP/s': round((4 * slotPixels) / 1000 / medianMs),
  }));
  console.log('Every loop, random pixels, mirrored, one thread, in a slot of 262 144 pixels');
  console.table(rows);
  figures.loops = rows;
}

function throughLibvips(picture: Uint8Array, profile: boolean): Promise<Buffer> {
  const image = sharp(picture, { raw: { width, height, channels: 3 } });
  return (profile ? image.withIccProfile(profilePath) : image).raw().toBuffer();
}

/** Both roads take the same press; their tables differ (Lab there, RGB here), so they may part by a few codes. */
async function difference(picture: Uint8Array): Promise<{ mean: number; most: number }> {
  const theirs = await throughLibvips(picture, true);
  const part = Math.min(pixels, 1 << 20);
  const kernel = attachKernel(createArena(pressLink, { bits: 8, slots: 1, slotPixels: part, module }), 0);
  kernel.input.set(picture.subarray(0, part * 3));
  kernel.run(part);
  let sum = 0;
  let most = 0;
  for (let i = 0; i < part * 3; i += 1) {
    const apart = Math.abs(kernel.output[i]! - theirs[i]!);
    sum += apart;
    most = Math.max(most, apart);
  }
  return { mean: round(sum / part / 3, 2), most };
}

/** Threads that each hold a share of the picture; `run` sets all to work and waits for the last. */
async function startThreads(link: DeviceLink, picture: Uint8Array, threads: number) {
  const each = pixels / threads;
  const whole = createArena(link, { bits: 8, slots: threads, slotPixels: each, module });
  const pieces = createArena(link, { bits: 8, slots: threads, slotPixels: 1 << 16, module });
  const workers = Array.from({ length: threads }, (_, slot) => {
    const share = new SharedArrayBuffer(each * 3);
    new Uint8Array(share).set(picture.subarray(slot * each * 3, (slot + 1) * each * 3));
    const result = new SharedArrayBuffer(each * 3);
    const workerData = { whole, pieces, slot, share, result };
    return new Worker(new URL('./lib/kernel-worker.js', import.meta.url), { workerData });
  });
  const run = async (task: Task): Promise<void> => {
    const done = workers.map((worker) => once(worker, 'message'));
    for (const worker of workers) worker.postMessage(task);
    await Promise.all(done);
  };
  await run('control');
  return { run, stop: () => Promise.all(workers.map((worker) => worker.terminate())) };
}

function grid(
  inputChannels: 1 | 3 | 4,
  gridPoints: number,
  colour: (position: readonly number[]) => readonly [number, number, number],
): GridLink {
  const table = new Uint16Array(gridPoints ** inputChannels * 3);
  for (let node = 0; node * 3 < table.length; node += 1) {
    const position = Array.from(
      { length: inputChannels },
      (_, c) => (Math.floor(node / gridPoints ** (inputChannels - 1 - c)) % gridPoints) / (gridPoints - 1),
    );
    for (const [c, value] of colour(position).entries()) table[node * 3 + c] = Math.round(value * 65535);
  }
  return { kind: 'grid', inputChannels, gridPoints, inputCurves: null, table, error8: { mean: 0, max: 0 } };
}

function round(value: number, digits = 0): number {
  return Number(value.toFixed(digits));
}
