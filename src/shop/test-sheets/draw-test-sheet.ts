import type { SheetOutputOptions } from '#contract';
import { builtinProfile, encodeProfile } from '#craft/icc';
import type { SheetPlan } from '#craft/sheet';
import { makeSheetFile, type SheetFileResult } from '#shop/render';

export interface DrawTask {
  readonly plan: SheetPlan;
  readonly ppi: number;
  readonly output: SheetOutputOptions;
  /** The profile that work printed this way is tagged with; null: sRGB. Used only when the output is to be tagged. */
  readonly iccBytes: Uint8Array | null;
  readonly outPath: string;
  readonly tempFolder: string;
  readonly workers?: number | undefined;
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((share: number, step: string) => void) | undefined;
}

/** A test sheet's file: its marks, in device numbers as they are, mirrored once when the plan says so. */
export function drawTestSheetFile(task: DrawTask): Promise<SheetFileResult> {
  const { plan, ppi, output, iccBytes, outPath, tempFolder, workers, signal, onProgress } = task;
  return makeSheetFile({
    plan,
    ppi,
    output,
    outPath,
    tempFolder,
    iccBytes: iccBytes ?? encodeProfile(builtinProfile('srgb')),
    ...(onProgress === undefined ? {} : { onProgress: ({ fraction, step }) => onProgress(fraction, step) }),
    ...(workers === undefined ? {} : { workers }),
    ...(signal === undefined ? {} : { signal }),
  });
}
