import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router';
import { parseListSearch } from './screens/inspection-list/list-search.ts';
import { parseVehicleSearch } from './screens/vehicle/vehicle-search.ts';
import { parseSearchText, writeSearchText } from './search-text.ts';
import { NotFound } from './shell/not-found.tsx';
import { ScreenProblem } from './shell/screen-problem.tsx';
import { Shell } from './shell/shell.tsx';

const rootRoute = createRootRoute({
  component: Shell,
  notFoundComponent: NotFound,
  errorComponent: ScreenProblem,
});

const inspectionListRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/',
  validateSearch: parseListSearch,
  component: lazyRouteComponent(
    () => import('./screens/inspection-list/inspection-list-screen.tsx'),
    'InspectionListScreen',
  ),
  errorComponent: ScreenProblem,
});

const vehicleRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/vehicles/$vehicle',
  validateSearch: parseVehicleSearch,
  component: lazyRouteComponent(() => import('./screens/vehicle/vehicle-screen.tsx'), 'VehicleScreen'),
  errorComponent: ScreenProblem,
});

const platformsRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/platforms',
  component: lazyRouteComponent(() => import('./screens/platforms/platforms-screen.tsx'), 'PlatformsScreen'),
  errorComponent: ScreenProblem,
});

const platformRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/platforms/$platform',
  component: lazyRouteComponent(() => import('./screens/platform/platform-screen.tsx'), 'PlatformScreen'),
  errorComponent: ScreenProblem,
});

const routeTree = rootRoute.addChildren([inspectionListRoute, vehicleRoute, platformsRoute, platformRoute]);

export const createAppRouter = () =>
  createRouter({
    routeTree,
    parseSearch: parseSearchText,
    stringifySearch: writeSearchText,
    defaultPreload: 'intent',
    scrollRestoration: true,
  });

declare module '@tanstack/react-router' {
  interface Register {
    router: ReturnType<typeof createAppRouter>;
  }
}
