export { type ChosenPatch, choosePatches, type PatchPurpose, patchCountLimits } from './choose-patches.js';
