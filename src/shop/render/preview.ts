import sharp from 'sharp';
import type { PlannedPiece, SheetPlan } from '#craft/sheet';
import { mmPerInch } from '#craft/units';
import { channelsOf } from './artwork/colour-space.js';
import type { BandJob } from './bands/band-job.js';
import { defaultWorkers } from './bands/pool.js';
import { bandsInOrder, cutIntoBands } from './bands/run-bands.js';
import { toPixelMarks } from './geometry/mark-pixels.js';
import { toPixelSheet } from './geometry/pixel-sheet.js';
import { withArtwork } from './marks-only.js';
import { prepareJob } from './prepare-job.js';
import { drawReach } from './reach-map.js';
import { readSource } from './read-source.js';
import { resampleArtwork } from './resample/resample.js';
import type { PieceSample, PreviewRequest, RenderSource } from './types.js';

const largestPreview = 4000;

/**
 * A picture of a plan as PNG, made by the very code that makes sheets, only with fewer pixels per inch: what is
 * shown is what is written.
 */
export async function renderPreview(request: PreviewRequest): Promise<Buffer> {
  const { plan, view, maxPixels } = request;
  const source = withArtwork(request);
  if (view.kind === 'paper') {
    const { rgb, width, height } = await renderSmall(source, plan, maxPixels, plan.mirrorOnWriting);
    return toPng(rgb, width, height, 0);
  }
  const piece = plan.pieces[0];
  if (piece === undefined) {
    if (view.kind === 'reach') return toPng(new Uint8Array([255, 255, 255]), 1, 1, 0);
    const { rgb, width, height } = await renderSmall(source, plan, maxPixels, false, view.proof);
    return toPng(rgb, width, height, 0);
  }
  const turnBack = -(piece.turnedDegrees ?? 0);
  const alone = pieceAlone(piece, plan);
  if (view.kind === 'pressed') {
    const { rgb, width, height } = await renderSmall(source, alone, maxPixels, false, view.proof);
    return toPng(rgb, width, height, turnBack);
  }
  const sample = await samplePiece({ ...source, plan, maxPixels });
  const rgb = await drawReach(sample, view.reach, request.signal);
  return toPng(rgb, sample.widthPixels, sample.heightPixels, turnBack);
}

/** The first piece's trim as numbers, as it lies on the sheet: the artwork's own and the device's. */
export async function samplePiece(
  request: RenderSource & { readonly plan: SheetPlan; readonly maxPixels: number },
): Promise<PieceSample> {
  const piece = request.plan.pieces[0];
  const sourceChannels = channelsOf(request.artworkFacts);
  if (piece === undefined) {
    const nothing = new Uint8Array(0);
    return { widthPixels: 0, heightPixels: 0, source: nothing, sourceChannels, deviceRgb: nothing };
  }
  let source: Uint8Array = new Uint8Array(0);
  const { rgb, width, height } = await renderSmall(
    request,
    pieceAlone(piece, request.plan),
    request.maxPixels,
    false,
    null,
    (job) => {
      source = readSource(job, sourceChannels);
    },
  );
  return { widthPixels: width, heightPixels: height, source, sourceChannels, deviceRgb: rgb };
}

/** A sheet that is nothing but one piece's face. */
function pieceAlone(piece: PlannedPiece, plan: SheetPlan): SheetPlan {
  const { widthMm, heightMm } = piece.trim;
  const trim = { xMm: 0, yMm: 0, widthMm, heightMm };
  return {
    sheetId: plan.sheetId,
    widthMm,
    heightMm,
    mirrorOnWriting: false,
    // As it is looked at, through the piece or not.
    pieces: [{ ...piece, trim, bleed: trim, seenThrough: false }],
    marks: [],
    frame: null,
  };
}

interface SmallPicture {
  readonly rgb: Uint8Array;
  readonly width: number;
  readonly height: number;
}

async function renderSmall(
  source: RenderSource,
  plan: SheetPlan,
  maxPixels: number,
  mirror: boolean,
  proof: Parameters<typeof prepareJob>[4]['proof'] = null,
  look?: (job: BandJob) => void,
): Promise<SmallPicture> {
  const longest = Math.max(1, Math.min(largestPreview, Math.round(maxPixels)));
  const ppi = (longest * mmPerInch) / Math.max(plan.widthMm, plan.heightMm);
  const sheet = toPixelSheet(plan, ppi);
  const artwork = await resampleArtwork(source, sheet.pieces, { quick: true });
  try {
    const job = await prepareJob(source, sheet, await toPixelMarks(plan, ppi), artwork, {
      mirror,
      outBits: 8,
      encoding: 'raw',
      workers: defaultWorkers(),
      proof,
    });
    look?.(job);
    const rgb = new Uint8Array(sheet.width * sheet.height * 3);
    for await (const band of bandsInOrder(
      job,
      cutIntoBands(sheet.width, 0, sheet.height, 1),
      source.signal,
    )) {
      rgb.set(band.bytes, band.top * sheet.width * 3);
    }
    return { rgb, width: sheet.width, height: sheet.height };
  } finally {
    await artwork.remove();
  }
}

function toPng(rgb: Uint8Array, width: number, height: number, turnDegrees: number): Promise<Buffer> {
  const picture = sharp(rgb, { raw: { width, height, channels: 3 } });
  return (turnDegrees === 0 ? picture : picture.rotate(turnDegrees)).png({ compressionLevel: 4 }).toBuffer();
}
