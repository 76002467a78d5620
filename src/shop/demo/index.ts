export { type DemoParts, DemoShop, isDemoShop } from './fill.js';
