export { ColourRound, type ColourRoundParts } from './colour-round.js';
