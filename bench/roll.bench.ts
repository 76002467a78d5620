// Peak memory of a 600 × 5000 mm roll sheet at 300 ppi (7087 × 59 055 px, 418 MP, 1.26 GB of pixels).
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { save } from './lib/measure.js';
import { photographJpeg } from './lib/sheet-artwork.js';

const goalMiB = 300;
const folder = mkdtempSync(path.join(tmpdir(), 'roll-bench-'));
const artwork = path.join(folder, 'artwork.jpg');
const figures: Record<string, unknown> = {};
try {
  await photographJpeg(artwork, 3000, 6000, true);
  for (const [format, turn] of [
    ['png', 0],
    ['pdf', 0],
    ['tiff', 0],
    ['png', 90],
  ] as const) {
    const child = path.join(import.meta.dirname, 'lib/roll-child.js');
    const run = spawnSync(process.execPath, [child, format, artwork, String(turn)], { encoding: 'utf8' });
    const name = turn === 0 ? format : `${format}, turned by ${turn}°`;
    if (run.status !== 0) {
      console.log(`${name}: failed: ${run.stderr}`);
      process.exitCode = 1;
      continue;
    }
    const took = JSON.parse(run.stdout) as {
      seconds: number;
      peakMiB: number;
      beforeMiB: number;
      bytes: number;
    };
    figures[name] = took;
    console.log(
      `${name.padEnd(22)} peak ${took.peakMiB.toFixed(0)} MiB resident (goal under ${goalMiB}; ${took.beforeMiB.toFixed(0)} before the sheet), ` +
        `${took.seconds.toFixed(1)} s, ${(took.bytes / 1e6).toFixed(0)} MB`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
save('roll', figures);
