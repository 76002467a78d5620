import { createRootRoute, createRoute, createRouter, Link, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { contentHashSchema, idSchema, placementSchema } from '#contract';
import { PageFrame, ProblemNote } from './frame/index.js';
import { SheetPage } from './sheet/index.js';

/**
 * What the Sheet place is about stands in the address: a reload, the back button and a bookmark keep it. Whatever
 * in an address is not understood is left out rather than refused.
 */
export const sheetSearchSchema = z.object({
  artwork: contentHashSchema.optional().catch(undefined),
  blank: idSchema.optional().catch(undefined),
  setup: idSchema.optional().catch(undefined),
  placement: placementSchema.optional().catch(undefined),
  copies: z.number().int().min(1).max(500).optional().catch(undefined),
  bleedMm: z.number().min(0).max(50).optional().catch(undefined),
  intent: z.enum(['perceptual', 'relative', 'saturation']).optional().catch(undefined),
  blackPointCompensation: z.boolean().optional().catch(undefined),
});
export type SheetSearch = z.infer<typeof sheetSearchSchema>;

const rootRoute = createRootRoute({
  component: PageFrame,
  notFoundComponent: () => (
    <div className="stack">
      <h1>There is nothing at this address.</h1>
      <p>
        <Link to="/">Go to Sheet</Link>
      </p>
    </div>
  ),
});
const sheetRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/',
  validateSearch: sheetSearchSchema,
  component: SheetPage,
});
const madeRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/sheets/$sheetId',
  component: lazyRouteComponent(() => import('./sheet/made-page.js'), 'MadePage'),
});
const readBackRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/read-back',
  component: lazyRouteComponent(() => import('./readback/index.js'), 'ReadBackPage'),
});
const setupsRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/setups',
  validateSearch: z.object({ open: z.string().optional().catch(undefined) }),
  component: lazyRouteComponent(() => import('./setups/index.js'), 'SetupsPage'),
});

export const router = createRouter({
  routeTree: rootRoute.addChildren([sheetRoute, madeRoute, readBackRoute, setupsRoute]),
  scrollRestoration: true,
  defaultErrorComponent: ({ error }) => <ProblemNote error={error} onAgain={() => location.reload()} />,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
