export { type DemoParts, fillDemoShop, isDemoShop } from './fill.js';
