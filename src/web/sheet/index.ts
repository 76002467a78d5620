export { sheetSearchSchema } from './search.js';
export { SheetPage } from './sheet-page.js';
