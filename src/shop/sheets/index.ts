export { closeColourThreads } from './colour-pool.js';
export type { SheetView } from './preview.js';
export { type OpenedSheetFile, Sheets } from './sheets.js';
