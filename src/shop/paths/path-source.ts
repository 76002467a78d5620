import type { ColourPath } from '#contract';
import type { EyeModelData } from '#craft/eyes';
import type { InkModelData } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import type { ContentFiles } from '#shop/files';
import { inkModelOf } from './ink-model-file.js';

/** What a path's colours are worked out from, as plain data for a thread. Equal keys, equal colours. */
export type PathSource =
  | { readonly kind: 'ink'; readonly key: string; readonly data: InkModelData }
  | {
      readonly kind: 'eye';
      readonly key: string;
      readonly data: EyeModelData;
      readonly base: PathSource | null;
    }
  | { readonly kind: 'profile'; readonly key: string; readonly icc: Uint8Array };

/** Where the base of a path judged by eye is kept. */
export interface KeptBase {
  readonly kind: PathSource['kind'];
  readonly hash: string;
}

/** The model file of a path judged by eye. */
export interface EyePathFile {
  readonly format: 'dyewright-eye-path';
  readonly version: 1;
  readonly eye: EyeModelData;
  readonly base: KeptBase | null;
}

/** Paths judged by eye over paths judged by eye…: no more of them than make sense. */
const mostBases = 4;

/** Errors: file.missing, chart.unusable, profile.unsupported. */
export function sourceOf(path: ColourPath, files: ContentFiles): Promise<PathSource> {
  return keptSource(keptBaseOf(path), files, mostBases);
}

export function keptBaseOf(path: ColourPath): KeptBase {
  const { measurement } = path;
  if (measurement === undefined) return { kind: 'profile', hash: path.iccHash };
  return { kind: path.origin === 'by-eye' ? 'eye' : 'ink', hash: measurement.modelHash };
}

async function keptSource({ kind, hash }: KeptBase, files: ContentFiles, bases: number): Promise<PathSource> {
  const bytes = await files.bytesOf(hash);
  if (kind === 'profile') return { kind, key: hash, icc: bytes };
  if (kind === 'ink') return { kind, key: hash, data: inkModelOf(bytes) };
  const file = eyePathFileOf(bytes);
  if (file.base !== null && bases === 0) throw damaged();
  const base = file.base === null ? null : await keptSource(file.base, files, bases - 1);
  return { kind, key: hash, data: file.eye, base };
}

export function eyePathFileOf(bytes: Uint8Array): EyePathFile {
  let value: Partial<EyePathFile> | null;
  try {
    value = JSON.parse(new TextDecoder().decode(bytes)) as Partial<EyePathFile> | null;
  } catch {
    throw damaged();
  }
  if (value?.format !== 'dyewright-eye-path' || value.version !== 1) throw damaged();
  if (value.eye?.format !== 'dyewright-eye-model') throw damaged();
  return value as EyePathFile;
}

const damaged = (): Problem =>
  new Problem('chart.unusable', 'The stored model of this path is damaged or of another kind.', {
    remedy: 'Make the colour path again from its grey sheet.',
  });
