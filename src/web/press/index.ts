export { PressPage } from './press-page.js';
