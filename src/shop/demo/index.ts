export { type DemoParts, DemoShop, demoTestSheet, isDemoShop } from './fill.js';
export { inventedPrinterProfile } from './invented-printer.js';
export { demoPressSheets } from './press.js';
