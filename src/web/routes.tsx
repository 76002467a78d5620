import { createRootRoute, createRoute, createRouter, Link, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { PageFrame, ProblemNote } from './frame/index.js';
import { forceSearchSchema, heatSearchSchema } from './heat/search.js';
import { measureSearchSchema } from './measure/search.js';
import { lookupSearchSchema, pathSearchSchema } from './paths/search.js';
import { evennessSearchSchema } from './platen/search.js';
import { blackSearchSchema, newLadderSearchSchema } from './press/search.js';
import { recipeSearchSchema } from './recipes/search.js';
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

const pressRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press',
  component: lazyRouteComponent(() => import('./press/index.js'), 'PressPage'),
});
const newLadderRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/ladder/new',
  validateSearch: newLadderSearchSchema,
  component: lazyRouteComponent(() => import('./press/plan/new-ladder-page.js'), 'NewLadderPage'),
});
const ladderRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/ladders/$ladderId',
  component: lazyRouteComponent(() => import('./press/ladder/ladder-page.js'), 'LadderPage'),
});
const blackRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/black',
  validateSearch: blackSearchSchema,
  component: lazyRouteComponent(() => import('./press/black/black-page.js'), 'BlackPage'),
});
const platenRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/platen/$pressId',
  component: lazyRouteComponent(() => import('./platen/platen-page.js'), 'PlatenPage'),
});
const newEvennessRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/evenness/new',
  validateSearch: evennessSearchSchema,
  component: lazyRouteComponent(() => import('./platen/new-evenness-page.js'), 'NewEvennessPage'),
});
const evennessRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/evenness/$id',
  component: lazyRouteComponent(() => import('./platen/evenness-page.js'), 'EvennessPage'),
});
const heatRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/heat',
  validateSearch: heatSearchSchema,
  component: lazyRouteComponent(() => import('./heat/heat-page.js'), 'HeatPage'),
});
const forceRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/force',
  validateSearch: forceSearchSchema,
  component: lazyRouteComponent(() => import('./heat/force-page.js'), 'ForcePage'),
});
const recipeRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/press/recipes/$blankId',
  validateSearch: recipeSearchSchema,
  component: lazyRouteComponent(() => import('./recipes/recipe-page.js'), 'RecipePage'),
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
    pressRoute,
    newLadderRoute,
    ladderRoute,
    blackRoute,
    platenRoute,
    newEvennessRoute,
    evennessRoute,
    heatRoute,
    forceRoute,
    recipeRoute,
  ]),
  scrollRestoration: true,
  defaultErrorComponent: ({ error }) => <ProblemNote error={error} onAgain={() => location.reload()} />,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
