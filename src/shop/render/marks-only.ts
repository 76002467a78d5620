import { Problem } from '#craft/problem';
import type { SheetPlan } from '#craft/sheet';
import type { ArtworkFacts, RenderSource, SheetSource } from './types.js';

/** Stands where a plan without pieces has no artwork: never opened, its colours never converted. */
const noArtwork: ArtworkFacts = {
  format: 'png',
  widthPixels: 1,
  heightPixels: 1,
  bitsPerSample: 8,
  colourModel: 'rgb',
  hasAlpha: false,
  transparentShare: 0,
  vector: false,
  icc: null,
  assumed: 'srgb',
  remarks: [],
};

/** A test sheet is drawn from its marks alone; a plan with pieces wants their artwork. */
export function withArtwork<T extends SheetSource & { readonly plan: SheetPlan }>(
  request: T,
): T & RenderSource {
  const { artworkPath, artworkFacts, link, plan } = request;
  if (artworkPath !== undefined && artworkFacts !== undefined && link !== undefined) {
    return { ...request, artworkPath, artworkFacts, link };
  }
  if (plan.pieces.length > 0) {
    throw new Problem('internal.fault', 'There is no artwork for the pieces of this sheet.', {
      remedy: 'Report this with what you did just before.',
    });
  }
  return {
    ...request,
    artworkPath: '',
    artworkFacts: noArtwork,
    link: { kind: 'identity', inputChannels: 3 },
  };
}
