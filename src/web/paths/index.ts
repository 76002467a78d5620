export { LookupPage } from './lookup/lookup-page.js';
export { PathPage } from './path-page.js';
