export { SetupsPage } from './setups-page.js';
