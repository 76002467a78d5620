import { createRootRoute, createRoute, createRouter, Link, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { PageFrame, ProblemNote } from './frame/index.js';
import { measureSearchSchema } from './measure/search.js';
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
const measureRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/measure',
  validateSearch: measureSearchSchema,
  component: lazyRouteComponent(() => import('./measure/index.js'), 'MeasurePage'),
});
const roundRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/measure/sheets/$sheetId',
  component: lazyRouteComponent(() => import('./measure/round/round-page.js'), 'RoundPage'),
});
const readingRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/readings/$readingId',
  component: lazyRouteComponent(() => import('./measure/reading/reading-page.js'), 'ReadingPage'),
});

export const router = createRouter({
  routeTree: rootRoute.addChildren([
    sheetRoute,
    madeRoute,
    readBackRoute,
    pathRoute,
    lookupRoute,
    setupsRoute,
    measureRoute,
    roundRoute,
    readingRoute,
  ]),
  scrollRestoration: true,
  defaultErrorComponent: ({ error }) => <ProblemNote error={error} onAgain={() => location.reload()} />,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
