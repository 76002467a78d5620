export { ColourDesk } from './colour.js';
export { closeColourThreads } from './colour-pool.js';
export { type OpenedSheetFile, openSheetFile } from './open-sheet-file.js';
export type { SheetView } from './preview.js';
export { Recent } from './recent.js';
export { Sheets } from './sheets.js';
