export { ReadBackPage } from './read-back-page.js';
