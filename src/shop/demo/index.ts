export { type DemoParts, DemoShop, isDemoShop } from './fill.js';
export { inventedPrinterProfile } from './invented-printer.js';
