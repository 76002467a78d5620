import { createRootRoute, createRoute, createRouter, Link, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { PageFrame, ProblemNote } from './frame/index.js';
import { lookupSearchSchema, pathSearchSchema } from './paths/search.js';
import { SheetPage, sheetSearchSchema } from './sheet/index.js';

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
const pathRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/paths/$pathId',
  validateSearch: pathSearchSchema,
  component: lazyRouteComponent(() => import('./paths/index.js'), 'PathPage'),
});
const lookupRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/paths/$pathId/lookup',
  validateSearch: lookupSearchSchema,
  component: lazyRouteComponent(() => import('./paths/index.js'), 'LookupPage'),
});

export const router = createRouter({
  routeTree: rootRoute.addChildren([
    sheetRoute,
    madeRoute,
    readBackRoute,
    pathRoute,
    lookupRoute,
    setupsRoute,
  ]),
  scrollRestoration: true,
  defaultErrorComponent: ({ error }) => <ProblemNote error={error} onAgain={() => location.reload()} />,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
