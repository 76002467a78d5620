import sharp, { type Metadata } from 'sharp';
import { Problem } from '#craft/problem';
import type { ArtworkFacts, ProbeLimits } from '../types.js';
import { channelsOf } from './colour-space.js';
import { judgeProfile } from './embedded-profile.js';
import { fileKind } from './file-kind.js';
import { asImageProblem } from './image-problem.js';
import { defaultMaxPixels, naturalSize, openPicture, readSvg } from './open-picture.js';
import { pngColourRemark } from './png-colour-chunks.js';
import { hasStrayChannel } from './tiff-extra-samples.js';

/** A drawing has no pixels of its own; described as if drawn with this long a side it never seems too coarse. */
const drawnLongSide = 8000;
/** The reduced copy on which transparency is judged; decoding for it also shows whether the file is whole. */
const glancePixels = 512;

/**
 * Look a picture file over: what it is by its content, its size upright, its colour, what will be assumed.
 * The whole file is decoded once, so damage is found here and not in the middle of a sheet.
 * Problems: `file.missing`, `image.wrong-type`, `image.unreadable`, `image.too-large`.
 */
export async function probeArtwork(path: string, limits: ProbeLimits = {}): Promise<ArtworkFacts> {
  const maxPixels = limits.maxPixels ?? defaultMaxPixels;
  const format = await fileKind(path);
  try {
    const facts = format === 'svg' ? await probeSvg(path) : await probePixels(path, format, maxPixels);
    const share = await transparentShare(path, facts, maxPixels);
    const remarks = share > 0 ? [...facts.remarks, alphaRemark] : facts.remarks;
    return { ...facts, remarks, transparentShare: share };
  } catch (error) {
    throw asImageProblem(error);
  }
}

async function probePixels(
  path: string,
  format: ArtworkFacts['format'],
  maxPixels: number,
): Promise<ArtworkFacts> {
  const metadata = await readHead(path, format);
  const { width, height } = metadata.autoOrient ?? metadata;
  if (width * height > maxPixels) throw tooLarge(width, height, maxPixels);
  const colourModel = colourModelOf(metadata);
  const bitsPerSample = bitsOf(metadata);
  if (
    metadata.channels > channelsOf({ colourModel }) + 1 ||
    (format === 'tiff' && (await hasStrayChannel(path)))
  )
    throw strayChannel();
  const { icc, remark } = judgeProfile(metadata.icc, colourModel);
  const assumed = icc !== null ? null : assumptions[colourModel].name;
  const pngRemark = format === 'png' ? await pngColourRemark(path, icc !== null) : null;
  const unreadProfile = remark ?? pngRemark;
  const remarks = [
    ...(unreadProfile === null ? [] : [unreadProfile]),
    ...(assumed === null ? [] : [assumptions[colourModel].remark]),
    ...(bitsPerSample === 16 ? ['It has 16 bits a channel, which are kept.'] : []),
    ...((metadata.pages ?? 1) > 1 ? [`It holds ${metadata.pages} pictures; the first is used.`] : []),
  ];
  return {
    format,
    widthPixels: width,
    heightPixels: height,
    bitsPerSample,
    colourModel,
    hasAlpha: metadata.hasAlpha ?? false,
    transparentShare: 0,
    vector: false,
    icc,
    assumed,
    remarks,
  };
}

/** What the file says of itself, before any pixel is decoded. */
async function readHead(path: string, format: ArtworkFacts['format']): Promise<Metadata> {
  try {
    return await sharp(path, { limitInputPixels: false, failOn: 'error' }).metadata();
  } catch (error) {
    if (/channel limit/i.test(String(error))) throw strayChannel();
    const problem = asImageProblem(error);
    if (problem.kind === 'disk') throw problem;
    // Its first bytes have said what it is, so it is no stranger: the rest of it is wrong, or of a rare kind.
    throw new Problem(
      'image.unreadable',
      `The file begins as a ${format.toUpperCase()}, but the rest is damaged, cut short or stored in a way that is not read here.`,
      {
        remedy: 'Export it again, as PNG or as RGB, grey or CMYK with 8 or 16 bits a channel.',
        cause: error,
      },
    );
  }
}

function strayChannel(): Problem {
  return new Problem(
    'image.wrong-type',
    'The picture holds a channel besides its colours that is not marked as transparency: a saved selection or a spot colour.',
    { remedy: 'Delete the extra channels in the program it was made with, or save it as PNG.' },
  );
}

async function probeSvg(path: string): Promise<ArtworkFacts> {
  const svg = await readSvg(path);
  const { width, height } = await naturalSize(svg);
  const scale = Math.max(1, drawnLongSide / Math.max(width, height));
  const liveText = /<text[\s>]/i.test(svg.toString('utf8'));
  return {
    format: 'svg',
    widthPixels: Math.max(1, Math.round(width * scale)),
    heightPixels: Math.max(1, Math.round(height * scale)),
    bitsPerSample: 8,
    colourModel: 'rgb',
    hasAlpha: true,
    transparentShare: 0,
    vector: true,
    icc: null,
    assumed: 'srgb',
    remarks: [
      'It is a drawing: it is drawn afresh at the size printed, and its colours are taken as sRGB.',
      ...(liveText
        ? ['It holds live text, set in whatever fonts this computer has: convert text to outlines.']
        : []),
    ],
  };
}

const alphaRemark =
  'See-through parts are laid on white and stay unprinted, so the bare blank shows there: there is no white ink.';

const assumptions = {
  rgb: { name: 'srgb', remark: 'It carries no colour profile and is taken as sRGB.' },
  grey: { name: 'grey-srgb', remark: 'It carries no colour profile; its greys are taken as sRGB greys.' },
  cmyk: {
    name: 'generic-cmyk',
    remark: 'It carries no colour profile and is taken as a generic CMYK, so its colours are a guess.',
  },
} as const;

function colourModelOf({ space }: Metadata): ArtworkFacts['colourModel'] {
  switch (space as string | undefined) {
    case 'srgb':
    case 'rgb':
    case 'rgb16':
      return 'rgb';
    case 'b-w':
    case 'grey16':
      return 'grey';
    case 'cmyk':
      return 'cmyk';
    default:
      throw new Problem(
        'image.wrong-type',
        `The picture's colours are stored as '${space}', which is not read here.`,
        {
          remedy: 'Save it as RGB, grey or CMYK with 8 or 16 bits a channel.',
        },
      );
  }
}

function bitsOf({ depth }: Metadata): 8 | 16 {
  if (depth === 'uchar') return 8;
  if (depth === 'ushort') return 16;
  throw new Problem(
    'image.wrong-type',
    'The picture stores its colours in a number format that is not read here.',
    {
      remedy: 'Save it with 8 or 16 bits a channel.',
    },
  );
}

function tooLarge(width: number, height: number, maxPixels: number): Problem {
  const millions = (pixels: number) => Math.round(pixels / 1e6).toLocaleString('en-GB');
  return new Problem(
    'image.too-large',
    `The picture has ${width} × ${height} pixels, ${millions(width * height)} million; the limit is ${millions(maxPixels)} million.`,
    { remedy: 'Save it smaller: 300 pixels per inch at the printed size is enough.' },
  );
}

/** Decodes the whole picture to a small copy; its alpha tells how much is see-through. */
async function transparentShare(path: string, facts: ArtworkFacts, maxPixels: number): Promise<number> {
  const scale = Math.min(1, glancePixels / Math.max(facts.widthPixels, facts.heightPixels));
  const width = Math.max(1, Math.round(facts.widthPixels * scale));
  const height = Math.max(1, Math.round(facts.heightPixels * scale));
  const picture = await openPicture(path, facts, { maxPixels, drawWidth: width, drawHeight: height });
  const { data, info } = await picture
    .resize(width, height, { fit: 'fill' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (!facts.hasAlpha) return 0;
  const samples =
    facts.bitsPerSample === 8 ? data : new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  const full = facts.bitsPerSample === 8 ? 255 : 65535;
  let through = 0;
  for (let at = info.channels - 1; at < samples.length; at += info.channels)
    if (samples[at]! < full) through += 1;
  return through / (width * height);
}
