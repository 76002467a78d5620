import { reachDeltaE00, reachThresholdDeltaE00 } from '#craft/icc';
import { Problem } from '#craft/problem';
import type { Scratch } from '#shop/files';
import { type PreviewView, renderPreview } from '#shop/render';
import { unlessAborted } from './aborted.js';
import type { ColourDesk } from './colour.js';
import type { PreparedSheet } from './prepare.js';

export type SheetView = 'paper' | 'pressed' | 'reach';

/** One view of a prepared sheet as PNG. Errors: request.invalid ('reach' without a colour path), job.cancelled. */
export async function previewSheet(
  colour: ColourDesk,
  scratch: Scratch,
  prepared: PreparedSheet,
  view: SheetView,
  options: { maxPixels: number; signal?: AbortSignal | undefined },
): Promise<Buffer> {
  const [link, shown] = await unlessAborted(
    Promise.all([colour.link(prepared.artwork, prepared.colour), viewOf(colour, prepared, view)]),
    options.signal,
  );
  return scratch.within((tempFolder) =>
    renderPreview({
      plan: prepared.layout.plan,
      artworkPath: prepared.artwork.path,
      artworkFacts: prepared.artwork.facts,
      link,
      tempFolder,
      view: shown,
      maxPixels: options.maxPixels,
      ...(options.signal === undefined ? {} : { signal: options.signal }),
    }),
  );
}

async function viewOf(colour: ColourDesk, prepared: PreparedSheet, view: SheetView): Promise<PreviewView> {
  if (view === 'paper') return { kind: 'paper' };
  if (view === 'pressed') return { kind: 'pressed', proof: await colour.proof(prepared.colour) };
  const table = await colour.reach(prepared.artwork, prepared.colour);
  if (table === null) {
    throw new Problem(
      'request.invalid',
      'This print setup has no colour path, so what it reaches is not known.',
      {
        remedy: 'Give the print setup a colour path, or look at another view.',
        where: 'view',
      },
    );
  }
  return {
    kind: 'reach',
    reach: {
      thresholdDeltaE00: reachThresholdDeltaE00,
      deltaE00At: (encoded) =>
        reachDeltaE00(table, encoded[0] ?? 0, encoded[1] ?? 0, encoded[2] ?? 0, encoded[3] ?? 0),
    },
  };
}
