// A whole A3 sheet at 300 ppi, JPEG in, PNG out: ours against a plain sharp pipeline that decodes, resizes, converts by
// the same profile, flips and encodes. sharp is given its default and a quick compression, one thread and two.
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { buildLink, parseProfile } from '#craft/icc';
import { closeRenderWorkers, makeSheetFile, probeArtwork, sourceProfile } from '#shop/render';
import { pressProfile } from './lib/lut-profile.js';
import { interleaved, save } from './lib/measure.js';
import { photographJpeg, wholeSheet } from './lib/sheet-artwork.js';

const width = 3508;
const height = 4961;
const folder = mkdtempSync(path.join(tmpdir(), 'sheet-bench-'));
const profilePath = path.join(folder, 'press.icc');
writeFileSync(profilePath, pressProfile());
const figures: Record<string, unknown> = {};
console.log(
  `A3, 300 ppi: ${width} × ${height} px. Medians of 5 interleaved rounds; the machine may be noisy.`,
);
try {
  for (const grain of [true, false]) await compare(grain);
} finally {
  await closeRenderWorkers();
  rmSync(folder, { recursive: true, force: true });
}
save('sheet', figures);

async function compare(grain: boolean): Promise<void> {
  const artworkPath = path.join(folder, 'artwork.jpg');
  await photographJpeg(artworkPath, 4000, 5657, grain);
  const artworkFacts = await probeArtwork(artworkPath);
  const link = buildLink({
    source: await sourceProfile(artworkFacts),
    destination: parseProfile(pressProfile()),
    intent: 'perceptual',
    blackPointCompensation: false,
  });
  const files = { ours: 'ours.png', oursPdf: 'ours.pdf', sharp6: 'sharp6.png', sharp2: 'sharp2.png' };
  const out = (name: keyof typeof files) => path.join(folder, files[name]);
  const plain = (name: 'sharp6' | 'sharp2', compressionLevel: number, threads: number) => async () => {
    const before = sharp.concurrency();
    sharp.concurrency(threads);
    await sharp(artworkPath)
      .resize(width, height, { fit: 'fill' })
      .withIccProfile(profilePath)
      .flop()
      .png({ compressionLevel })
      .toFile(out(name));
    sharp.concurrency(before);
  };
  const sheet = (format: 'png' | 'pdf', name: 'ours' | 'oursPdf', workers: number) => async () => {
    await makeSheetFile({
      plan: wholeSheet(297, 420),
      ppi: 300,
      artworkPath,
      artworkFacts,
      link,
      output: { format, bitsPerSample: 8, colourTag: 'device' },
      outPath: out(name),
      tempFolder: folder,
      workers,
    });
  };
  const times = await interleaved(
    {
      'sheet PNG': sheet('png', 'ours', 2),
      'sheet PNG, one worker': sheet('png', 'ours', 1),
      'sheet PDF': sheet('pdf', 'oursPdf', 2),
      'sharp, default': plain('sharp6', 6, 1),
      'sharp, default, 2 threads': plain('sharp6', 6, 2),
      'sharp, level 2': plain('sharp2', 2, 1),
      'sharp, level 2, 2 threads': plain('sharp2', 2, 2),
    },
    5,
  );
  const size = (name: keyof typeof files) => statSync(out(name)).size / 1e6;
  const bytes: Record<string, number> = {
    'sheet PNG': size('ours'),
    'sheet PNG, one worker': size('ours'),
    'sheet PDF': size('oursPdf'),
    'sharp, default': size('sharp6'),
    'sharp, default, 2 threads': size('sharp6'),
    'sharp, level 2': size('sharp2'),
    'sharp, level 2, 2 threads': size('sharp2'),
  };
  const ours = times['sheet PNG'];
  console.log(`\nphotograph ${grain ? 'with grain' : 'enlarged, smooth'}, link: ${link.kind}`);
  for (const [name, { medianMs, fastestMs, medianCpuMs }] of Object.entries(times)) {
    console.log(
      `  ${name.padEnd(27)} ${medianMs.toFixed(0).padStart(6)} ms (best ${fastestMs.toFixed(0)}, processor ${medianCpuMs.toFixed(0)}), ` +
        `${bytes[name]!.toFixed(1)} MB; sheet PNG is ${(medianMs / ours.medianMs).toFixed(2)} × as fast (best against best ${(fastestMs / ours.fastestMs).toFixed(2)})`,
    );
  }
  figures[grain ? 'grain' : 'smooth'] = { times, megabytes: bytes, link: link.kind };
}
