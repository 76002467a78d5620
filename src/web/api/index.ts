export { problemOf, ServerProblem } from './call.js';
export { type SheetMaking, useSheetMaking } from './jobs.js';
export { type PreviewView, usePreview, useProposal } from './proposal.js';
export * from './records.js';
