export { Blanks, expectSameId, expectUnchanged, type SaveOptions } from './blanks.js';
export { Preferences } from './preferences.js';
export { addRecipeVersion, figuresOf, sameRecipe, typedGround, type VersionOf } from './recipe-versions.js';
export { Setups } from './setups.js';
export { offerStock } from './stock.js';
