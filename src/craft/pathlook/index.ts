export type { ColourNeighbour } from './alternatives.js';
export { type AnsweredColour, answerColours, type WantedColour } from './answer-colours.js';
export { type BesideWhite, besideWhite } from './beside-white.js';
export { codesFor, type DoubtLook, lookAtPath, type NeutralLook, type PathPicture } from './look-at-path.js';
export { profileModel } from './profile-model.js';
export type * from './types.js';
