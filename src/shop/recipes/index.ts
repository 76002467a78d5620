export { Recipes, type RecipesParts } from './recipes.js';
