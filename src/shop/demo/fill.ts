import type { ArtworkShelf } from '#shop/artwork';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import type { Records } from '#shop/store';
import { demoArtwork } from './artwork.js';

export interface DemoParts {
  readonly records: Records;
  readonly artwork: ArtworkShelf;
  readonly paths: ColourPaths;
  readonly setups: Setups;
  readonly blanks: Blanks;
  readonly now: () => Date;
  readonly onFault: (error: unknown) => void;
}

/**
 * Fills a shop that has never held anything of its own. Done once in a shop's life, so that what a person
 * removes stays away. The shop opens also when this fails: it is only a demonstration.
 */
export async function fillDemoShop(parts: DemoParts): Promise<void> {
  if ((await parts.records.settings.get('demo')) !== undefined) return;
  if ((await parts.artwork.list()).length > 0) return;
  try {
    for (const piece of await demoArtwork()) {
      await parts.artwork.add(inOneChunk(piece.bytes), piece.fileName, { demo: true });
    }
    await parts.records.settings.put('demo', { filledAt: parts.now().toISOString() });
  } catch (error) {
    parts.onFault(error);
  }
}

/** True while demo records are there. */
export async function isDemoShop(records: Records): Promise<boolean> {
  return (
    (await records.artwork.list()).some((artwork) => artwork.demo) ||
    (await records.setups.list()).some((setup) => setup.demo)
  );
}

async function* inOneChunk(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
