import type { Scratch } from '#shop/files';
import { renderPreview } from '#shop/render';
import { ColourDesk, Recent } from '#shop/sheets';
import { digestOf } from '#shop/store';
import type { FoundOrder, PrepareParts } from './found-order.js';
import { type PreparedTestSheet, prepareTestSheet } from './prepare-test-sheet.js';

export type TestSheetView = 'paper' | 'pressed';

export interface TestSheetPreview {
  readonly key: string;
  readonly draw: (signal?: AbortSignal) => Promise<Buffer>;
}

/** Pictures of test sheets not made yet. The colours of the last few are remembered: a path thinks them out in seconds. */
export class TestSheetPreviews {
  private readonly planned = new Recent<PreparedTestSheet>(4);
  private readonly colour: ColourDesk;

  constructor(private readonly parts: PrepareParts & { readonly scratch: Scratch }) {
    this.colour = new ColourDesk(parts.paths);
  }

  async preview(found: FoundOrder, maxPixels: number, view: TestSheetView): Promise<TestSheetPreview> {
    const { order, blank, setup, path, press } = found;
    const about = digestOf({ order, blank, setup, path, press });
    return {
      key: `${about}-${view}-${maxPixels}`,
      draw: async (signal) => {
        // A colour sheet whose seed is yet to be drawn looks like any other of its kind.
        const prepared = await this.planned.get(about, () => prepareTestSheet(this.parts, found, 0));
        const proof = view === 'pressed' ? await this.proof(prepared) : null;
        return this.parts.scratch.within((tempFolder) =>
          renderPreview({
            plan: prepared.plan,
            tempFolder,
            view: view === 'paper' ? { kind: 'paper' } : { kind: 'pressed', proof },
            maxPixels,
            ...(signal === undefined ? {} : { signal }),
          }),
        );
      },
    };
  }

  /** Printer numbers → the screen, as far as any path knows. */
  private async proof({ setup, path }: PreparedTestSheet) {
    const colourPathId = path?.id ?? setup.colourPathId;
    if (colourPathId === null) return null;
    return this.colour.proof(await this.colour.colourFor({}, { ...setup, colourPathId }));
  }
}
