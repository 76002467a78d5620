export { BlankField } from './blank-field.js';
export { coatingWords } from './coating-words.js';
export { lastSetup, rememberSetup } from './last-setup.js';
export { PrintStep } from './print-step.js';
export { SheetPreview } from './sheet-preview.js';
export { Step, type StepState } from './step.js';
