export { eyeModel, makeEyeModel } from './eye-model.js';
export type * from './types.js';
