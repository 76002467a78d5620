import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Command } from 'commander';
import { convertImage } from '#shop/render';
import { assertReadable, globals, oneOf, readNamed, stoppable } from './common.js';

interface Options {
  readonly path: string;
  readonly intent: 'relative' | 'perceptual' | 'saturation';
  readonly bpc: boolean;
  readonly out: string;
}

/** One image through one profile and nothing else: for comparing our colour with another engine's. */
export function convertCommand(): Command {
  return new Command('convert')
    .description('convert one image through an RGB output profile, size unchanged')
    .argument('<image>')
    .requiredOption('--path <profile.icc>', 'the RGB output profile')
    .option(
      '--intent <intent>',
      'relative, perceptual or saturation',
      oneOf('--intent', ['relative', 'perceptual', 'saturation']),
      'relative',
    )
    .option('--bpc', 'black point compensation', false)
    .requiredOption('--out <file>', 'a .png or .tif')
    .action(async (image: string, options: Options, command: Command) => {
      const { say } = globals(command);
      await assertReadable(image);
      const iccBytes = await readNamed(options.path);
      const tempFolder = await mkdtemp(path.join(tmpdir(), 'dyewright-'));
      try {
        const result = await convertImage({
          inPath: image,
          iccBytes,
          intent: options.intent,
          blackPointCompensation: options.bpc,
          outPath: path.resolve(options.out),
          tempFolder,
          signal: stoppable(),
          onProgress: ({ fraction, step }) => say.progress(fraction, step),
        });
        say.answer({ out: options.out, ...result }, () =>
          [
            `Wrote ${options.out}: ${result.widthPixels} × ${result.heightPixels}, ${result.bitsPerSample} bit.`,
            ...result.remarks,
          ].join('\n'),
        );
      } finally {
        await rm(tempFolder, { recursive: true, force: true });
      }
    });
}
