export { BlankField } from './blank-field.js';
export { coatingWords } from './coating-words.js';
export { FormatField } from './format-field.js';
export { lastSetup, rememberSetup } from './last-setup.js';
export { MakeBlock } from './make-block.js';
export { PrintStep } from './print-step.js';
export { ScannerField } from './scanner-field.js';
export { SheetPreview } from './sheet-preview.js';
export { Step, type StepState } from './step.js';
