export { closeVision } from './pool.js';
export { type ReadChart, type ReadChartOptions, readChartPicture } from './read-chart-picture.js';
export { type ReadPictureOptions, readSheetPicture } from './read-sheet-picture.js';
