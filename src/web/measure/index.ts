export { MeasurePage } from './measure-page.js';
