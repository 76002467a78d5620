import type { Triple, Triple3 } from '#craft/colour';
import { makeEyeModel } from '#craft/eyes';
import { labToDevice, parseProfile } from '#craft/icc';
import { type ColourModel, type InkInverse, makeInkModel, makeInverse } from '#craft/inkmodel';
import { profileModel } from '#craft/pathlook';
import type { PathSource } from './path-source.js';

/** Runs in a thread: a path made ready once and kept for the next question about it. */
export interface ReadyPath {
  readonly model: ColourModel;
  readonly inverse: InkInverse;
  /** The profile's own way back; absent for models, which have a better one. */
  readonly deviceOf: ((relativeLab: Triple) => Triple3) | undefined;
  readonly isDoubtKnown: boolean;
}

const mostKept = 3;
const kept = new Map<string, ReadyPath>();

/** Errors: profile.broken, profile.unsupported. */
export function readyPath(source: PathSource): ReadyPath {
  const found = kept.get(source.key);
  const ready = found ?? makeReady(source);
  kept.delete(source.key);
  if (source.key !== '') kept.set(source.key, ready);
  for (const oldest of kept.keys()) {
    if (kept.size <= mostKept) break;
    kept.delete(oldest);
  }
  return ready;
}

export function modelOf(source: PathSource): ColourModel {
  switch (source.kind) {
    case 'ink':
      return makeInkModel(source.data);
    case 'eye':
      return makeEyeModel(source.data, source.base === null ? undefined : modelOf(source.base));
    case 'profile':
      return profileModel(parseProfile(source.icc));
  }
}

function makeReady(source: PathSource): ReadyPath {
  const model = modelOf(source);
  let inverse: InkInverse | undefined;
  const toDevice = source.kind === 'profile' ? labToDevice(parseProfile(source.icc)) : undefined;
  return {
    model,
    // Only some questions need the way back, which costs most.
    get inverse() {
      inverse ??= makeInverse(model);
      return inverse;
    },
    deviceOf: toDevice && ((lab) => toDevice(lab) as Triple3),
    isDoubtKnown: source.kind !== 'profile',
  };
}
