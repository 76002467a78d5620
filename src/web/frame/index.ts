export { BlankDrawing } from './blank-drawing.js';
export { LengthField } from './length-field.js';
export { PageDrop } from './page-drop.js';
export { PageFrame } from './page-frame.js';
export { usePreferences } from './preferences.js';
export { ProblemNote } from './problem-note.js';
export { Said } from './said.js';
export { Working } from './working.js';
