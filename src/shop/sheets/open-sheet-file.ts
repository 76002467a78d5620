import type { OutputFormat, SheetFile } from '#contract';
import { Problem } from '#craft/problem';
import type { ContentFiles } from '#shop/files';

/** A file of a sheet, to be read. */
export interface OpenedSheetFile {
  readonly path: string;
  readonly fileName: string;
  readonly bytes: number;
  readonly mediaType: string;
  readonly contentHash: string;
}

/** A file by the name in its record. `what` names the record in words: 'test sheet'. Errors: file.missing. */
export async function openSheetFile(
  files: ContentFiles,
  what: string,
  sheet: { readonly id: string; readonly files: readonly SheetFile[] },
  fileName: string,
): Promise<OpenedSheetFile> {
  const file = sheet.files.find((candidate) => candidate.fileName === fileName);
  if (file === undefined) {
    throw new Problem('file.missing', `The ${what} ${sheet.id} has no file of that name.`, {
      remedy: `It has: ${sheet.files.map((one) => one.fileName).join(', ')}.`,
    });
  }
  return {
    path: await files.pathOf(file.contentHash),
    fileName: file.fileName,
    bytes: file.bytes,
    mediaType: mediaTypes[file.format],
    contentHash: file.contentHash,
  };
}

const mediaTypes: Record<OutputFormat, string> = {
  pdf: 'application/pdf',
  png: 'image/png',
  tiff: 'image/tiff',
};
