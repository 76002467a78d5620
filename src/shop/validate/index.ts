export { checked, type Issue, invalid, issueSentence } from './checked.js';
