import type { SizeReading } from './size.js';
import type { SeenPatch } from './strip.js';

export type ReadSubject = 'paper' | 'piece';

/** `ReadBack` of the contract without what only the record knows. */
export interface SheetReading {
  subject: ReadSubject;
  sheetId: string | null;
  fileMirrored: boolean | null;
  seenMirrored: boolean;
  mirroring: 'right' | 'not-mirrored' | 'mirrored-twice' | 'unknown';
  scalePercent: { across: number; along: number; uncertainty: number } | null;
  scale: 'right' | 'wrong' | 'stretched' | 'unknown';
  sentences: string[];
  markersFound: number;
  routeStrip: { name: string; printedRgb: [number, number, number]; seenRgb: [number, number, number] }[];
}

export interface Evidence {
  readonly subject: ReadSubject;
  /** From the code on the sheet; null when it could not be read. */
  readonly sheetId: string | null;
  readonly fileMirrored: boolean | null;
  readonly seenMirrored: boolean;
  readonly size: SizeReading;
  readonly markersFound: number;
  readonly markersExpected: number;
  readonly routeStrip: readonly SeenPatch[];
  /** The picture file's own orientation tag turned the picture over. */
  readonly fileFlipped: boolean;
}

/**
 * Size errors that matter, percent. On paper half a percent is a millimetre on a mug's wrap; driver faults (fit to
 * page, borderless) are 1 % and more. Cloth and paper move in the heat, so a piece is judged more gently
 * (common practice).
 */
const tolerancePercent = { paper: 0.5, piece: 1.5 } as const;

export function judge(evidence: Evidence): SheetReading {
  const { mirroring, sentences: mirrorSentences } = judgeMirroring(evidence);
  const { scale, sentences: scaleSentences } = judgeSize(evidence);
  const { size } = evidence;
  return {
    subject: evidence.subject,
    sheetId: evidence.sheetId,
    fileMirrored: evidence.fileMirrored,
    seenMirrored: evidence.seenMirrored,
    mirroring,
    scalePercent: size.known
      ? {
          across: rounded(size.acrossPercent),
          along: rounded(size.alongPercent),
          uncertainty: Math.ceil(100 * Math.max(size.acrossUncertainty, size.alongUncertainty)) / 100,
        }
      : null,
    scale,
    sentences: [...mirrorSentences, ...scaleSentences, ...remarks(evidence)],
    markersFound: evidence.markersFound,
    routeStrip: evidence.routeStrip.map(({ name, printedRgb, seenRgb }) => ({
      name,
      printedRgb: [...printedRgb],
      seenRgb: [...seenRgb],
    })),
  };
}

/** On paper it must be seen mirrored, on the piece the right way. */
function judgeMirroring(evidence: Evidence): Pick<SheetReading, 'mirroring' | 'sentences'> {
  const { subject, seenMirrored, fileMirrored } = evidence;
  const right = subject === 'paper' ? seenMirrored : !seenMirrored;
  if (right) {
    return {
      mirroring: 'right',
      sentences: [
        subject === 'paper'
          ? 'Mirrored once, as it must be: the paper reads backwards and the piece will read the right way.'
          : 'Mirrored once, as it must be: the piece reads the right way.',
      ],
    };
  }
  const seen =
    subject === 'paper'
      ? 'The paper reads the right way, so the piece would come out backwards.'
      : 'The piece reads backwards.';
  const before = subject === 'paper' ? 'Do not press this sheet. ' : '';
  if (fileMirrored === null) {
    return {
      mirroring: 'unknown',
      sentences: [
        `Mirrored the wrong number of times. ${seen}`,
        `${before}The code on the sheet could not be read, so look at the print setup: one of the two must mirror, this program or the driver, not both and not neither. Then print again.`,
      ],
    };
  }
  return fileMirrored
    ? {
        mirroring: 'mirrored-twice',
        sentences: [
          `Mirrored twice: the file was written mirrored and the driver mirrored it again. ${seen}`,
          `${before}Turn mirroring off in the driver and print again.`,
        ],
      }
    : {
        mirroring: 'not-mirrored',
        sentences: [
          `Not mirrored: the file was left for the driver to mirror, and the driver did not. ${seen}`,
          `${before}Turn mirroring on in the driver, or let this program mirror the sheet, and print again.`,
        ],
      };
}

function judgeSize({ size, subject }: Evidence): Pick<SheetReading, 'scale' | 'sentences'> {
  if (!size.known) return { scale: 'unknown', sentences: [whyUnknown[size.why]] };
  const limit = tolerancePercent[subject];
  const off = (percent: number, uncertainty: number): boolean =>
    Math.abs(percent - 100) > Math.max(limit, 1.5 * uncertainty);
  const acrossOff = off(size.acrossPercent, size.acrossUncertainty);
  const alongOff = off(size.alongPercent, size.alongUncertainty);
  const across = `${percent(size.acrossPercent)} ± ${percent(size.acrossUncertainty)} % across`;
  const along = `${percent(size.alongPercent)} ± ${percent(size.alongUncertainty)} % along`;
  const figures = `${across} and ${along}, going by the scan's own ${Math.round(size.ppi)} ppi`;
  if (!acrossOff && !alongOff) return { scale: 'right', sentences: [`Printed at its size: ${figures}.`] };
  const ratio = 100 * Math.abs(size.acrossPercent / size.alongPercent - 1);
  const stretched = ratio > Math.max(limit, 1.5 * Math.hypot(size.acrossUncertainty, size.alongUncertainty));
  const far = [size.acrossPercent, size.alongPercent].some((value) => value < 80 || value > 125);
  const sentences = stretched
    ? [
        `Stretched: ${figures}.`,
        'Print at 100 %, turn off fit-to-page, and choose the paper size that is loaded. If one direction stays off, check the paper feed setting and scan again on a flatbed.',
      ]
    : [
        `Not printed at its size: ${figures}.`,
        'Print at 100 %: turn off fit-to-page and borderless enlarging in the driver.',
      ];
  if (subject === 'piece')
    sentences.push('Heat shrinks paper and cloth a little; check the size on the paper too.');
  if (far)
    sentences.push(
      'If the picture was made smaller or larger after scanning, these figures mean nothing: scan again.',
    );
  return { scale: stretched ? 'stretched' : 'wrong', sentences };
}

const whyUnknown = {
  camera: 'The size cannot be told from a photograph: scan the sheet on a flatbed to measure it.',
  'no-density': 'The size cannot be told: the picture does not say at how many ppi it was scanned.',
  'screen-density':
    'The size cannot be told: the picture bears a screen resolution, not that of a scan. Save the scan with its own resolution.',
  'not-flat':
    'The size cannot be told: the sheet is not lying flat in the picture. Scan it flat on the glass.',
  'no-code': 'The size cannot be told without the code on the sheet.',
  'too-few-marks': 'The size cannot be told: too few corner marks are in the picture. Scan the whole sheet.',
} as const;

function remarks({ markersFound, markersExpected, sheetId, fileFlipped }: Evidence): string[] {
  const all: string[] = [];
  if (markersExpected > 0 && markersFound < markersExpected) {
    all.push(`${markersFound} of ${markersExpected} corner marks were found; that was enough.`);
  }
  if (sheetId === null) all.push('Which sheet it is could not be read; scan the code sharper, at 300 ppi.');
  if (fileFlipped) {
    all.push(
      'The picture file says that it is stored mirrored and was turned over before reading; scan it again if that is not so.',
    );
  }
  return all;
}

const rounded = (value: number): number => Math.round(value * 100) / 100;
const percent = (value: number): string => value.toFixed(value < 10 ? 2 : 1);
