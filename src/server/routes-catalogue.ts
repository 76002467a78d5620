import { blankSchema, printSetupSchema } from '#contract';
import type { Shop } from '#shop';
import type { App } from './context.js';
import { recordRoutes } from './record-routes.js';

export function catalogueRoutes(app: App, shop: Shop): void {
  recordRoutes(app, shop.blanks, { tag: 'blanks', schema: blankSchema, all: 'All blanks', one: 'blank' });
  recordRoutes(app, shop.setups, {
    tag: 'setups',
    schema: printSetupSchema,
    all: 'All print setups',
    one: 'print setup',
  });
}
