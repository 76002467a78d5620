export { cautionsFor } from './cautions-for.js';
export { inWords, short } from './estimate.js';
export { HeatDesk, type HeatDeskParts } from './heat-desk.js';
export { lookSeed, usualKinetics } from './look.js';
export { type PressedRun, type PressedRunRequest, pressedRun } from './pressed-run.js';
export type { ShopContacts } from './shop-contacts.js';
export { type Body, usualBody, warmthJPerM2K } from './usual-body.js';
