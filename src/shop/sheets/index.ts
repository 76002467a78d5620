export { ColourDesk } from './colour.js';
export { closeColourThreads } from './colour-pool.js';
export type { SheetView } from './preview.js';
export { Recent } from './recent.js';
export { type OpenedSheetFile, Sheets } from './sheets.js';
