import type { ColourModel } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import type { EyeAnswers, EyeModelData } from './types.js';

/** Grade E. */
export function eyeModel(
  _answers: EyeAnswers,
  _base?: ColourModel,
): { model: ColourModel; data: EyeModelData; remarks: string[] } {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}

export function makeEyeModel(_data: EyeModelData, _base?: ColourModel): ColourModel {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
