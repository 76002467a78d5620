import sharp from 'sharp';
import type { Check, PathStanding, SheetProposal } from '#contract';
import { reachThresholdDeltaE00 } from '#craft/icc';
import { checkSheet, type SmallPicture, standingSentence } from '#craft/sheet';
import type { ArtworkShelf } from '#shop/artwork';
import type { Scratch } from '#shop/files';
import { samplePiece } from '#shop/render';
import type { ColourDesk } from './colour.js';
import type { PreparedSheet } from './prepare.js';
import { type ReachSummary, summariseReach } from './reach-summary.js';
import { Recent } from './recent.js';

/** Long side of the small copy that the checks look at (see SmallPicture). */
const smallPixels = 1000;
/** Long side of the sample in which unreachable colours are counted: a quarter of a million pixels at most. */
const samplePixels = 500;

/** Whether a colour path still fits a print setup and a blank. */
export type StandingOf = (
  pathId: string,
  about: { readonly setupId: string; readonly blankId: string },
) => Promise<PathStanding>;

/** Looks a prepared sheet over: checks, standing, and what of the picture the colour path cannot reach. */
export class Proposer {
  private readonly pictures = new Recent<SmallPicture>(4);
  private readonly summaries = new Recent<ReachSummary>(16);

  constructor(
    private readonly artwork: ArtworkShelf,
    private readonly colour: ColourDesk,
    private readonly scratch: Scratch,
    private readonly standingOf: StandingOf | undefined,
  ) {}

  async propose(prepared: PreparedSheet): Promise<SheetProposal> {
    const { request, layout, colour } = prepared;
    const [picture, reach, standing] = await Promise.all([
      this.smallPicture(prepared.artwork.record.id),
      this.reach(prepared),
      this.standing(prepared),
    ]);
    const checks = checksOf(prepared, picture, reach?.share ?? null, standing);
    const { plan } = layout;
    const first = plan.pieces[0];
    return {
      request,
      standing: standingSentence(checks),
      checks,
      effectivePpi: layout.effectivePpi,
      sheetWidthMm: plan.widthMm,
      sheetHeightMm: plan.heightMm,
      piecesPlaced: layout.piecesPlaced,
      trims: plan.pieces.map((piece) => ({ ...piece.trim })),
      trimForm: first?.trimForm ?? prepared.outline.form,
      trimCornerRadiusMm: first?.trimCornerRadiusMm ?? prepared.outline.cornerRadiusMm,
      safeMm: prepared.blank.safeMm,
      bleedMm: prepared.bleedMm,
      artwork: { ...layout.artwork },
      colour: {
        calibrated: colour.path !== null,
        sentence: colour.sentence,
        pathName: colour.path?.name ?? null,
        intent: colour.intent,
        blackPointCompensation: colour.blackPointCompensation,
        unreachableShare: reach?.share ?? null,
        thresholdDeltaE00: reach === null ? null : reachThresholdDeltaE00,
        unreachable: reach?.colours ?? [],
      },
    };
  }

  private async standing({ colour, setup, blank }: PreparedSheet): Promise<PathStanding | null> {
    if (colour.path === null || this.standingOf === undefined) return null;
    return this.standingOf(colour.path.id, { setupId: setup.id, blankId: blank.id });
  }

  private smallPicture(artworkId: string): Promise<SmallPicture> {
    return this.pictures.get(artworkId, async () => {
      const shown = await this.artwork.picture(artworkId, smallPixels);
      const { data, info } = await sharp(shown.bytes)
        .toColourspace('srgb')
        .ensureAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      return { widthPixels: info.width, heightPixels: info.height, rgba: new Uint8Array(data) };
    });
  }

  private async reach(prepared: PreparedSheet): Promise<ReachSummary | null> {
    const table = await this.colour.reach(prepared.artwork, prepared.colour);
    if (table === null) return null;
    return this.summaries.get(prepared.sheetId, () =>
      this.scratch.within(async (tempFolder) => {
        const sample = await samplePiece({
          plan: prepared.layout.plan,
          artworkPath: prepared.artwork.path,
          artworkFacts: prepared.artwork.facts,
          link: await this.colour.link(prepared.artwork, prepared.colour),
          tempFolder,
          maxPixels: samplePixels,
        });
        return summariseReach(sample, table);
      }),
    );
  }
}

/** The checks; without a picture those that need one are left out (the stops need none). */
export function checksOf(
  prepared: PreparedSheet,
  picture: SmallPicture | null,
  unreachableShare: number | null,
  standing: PathStanding | null = null,
): Check[] {
  const calibrated = prepared.colour.path !== null;
  return checkSheet({
    blank: prepared.blank,
    outline: prepared.outline,
    bleedMm: prepared.bleedMm,
    artworkPixels: prepared.artwork.record,
    placement: prepared.request.placement,
    layout: prepared.layout,
    mirroredBy: prepared.setup.mirroredBy,
    picture,
    colour: {
      calibrated,
      unreachableShare,
      thresholdDeltaE00: unreachableShare === null ? null : reachThresholdDeltaE00,
      pathDoubts: doubtsOf(standing),
    },
  }).map((check) => ({ ...check }));
}

/** That time has passed is no doubt by itself. */
function doubtsOf(standing: PathStanding | null) {
  if (standing === null || (standing.standing !== 'look' && standing.standing !== 'stale')) return undefined;
  const sentences = standing.reasons.filter(({ what }) => what !== 'age').map(({ sentence }) => sentence);
  return { isStale: standing.standing === 'stale', sentences };
}
