import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  redirect,
} from '@tanstack/react-router';
import { parseAtlasSearch } from './screens/atlas/atlas-search.ts';
import { parseBayPlanSearch } from './screens/bay-plan/plan-search.ts';
import { parseDigestSearch } from './screens/digest/digest-search.ts';
import { parseListSearch } from './screens/inspection-list/list-search.ts';
import { parseBringSearch } from './screens/intake/bring/bring-search.ts';
import { parseDeliveriesSearch } from './screens/intake/deliveries/deliveries-search.ts';
import { parseRefusedSearch } from './screens/intake/refused/refused-search.ts';
import { parseSetUpSearch } from './screens/intake/set-up/set-up-search.ts';
import { parseToCompleteSearch } from './screens/intake/vehicles/to-complete-search.ts';
import { parseLivesSearch } from './screens/lives/lives-search.ts';
import { parsePacketSearch } from './screens/packet/packet-search.ts';
import { parsePacketsSearch } from './screens/packets/packets-search.ts';
import { parseReplaySearch } from './screens/replay/replay-search.ts';
import { parseChangesSearch } from './screens/settings/changes/changes-search.ts';
import { parseOpenSearch } from './screens/settings/open-search.ts';
import { parsePeopleSearch } from './screens/settings/people/people-search.ts';
import { parseStorageSearch } from './screens/settings/storage/storage-search.ts';
import { parseWebhooksSearch } from './screens/settings/webhooks/webhooks-search.ts';
import { parseSignInSearch } from './screens/sign-in/sign-in-search.ts';
import { parseVehicleSearch } from './screens/vehicle/vehicle-search.ts';
import { parseWorkbenchSearch } from './screens/workbench/workbench-search.ts';
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

const bayPlanRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/bay-plan',
  validateSearch: parseBayPlanSearch,
  component: lazyRouteComponent(() => import('./screens/bay-plan/bay-plan-screen.tsx'), 'BayPlanScreen'),
  errorComponent: ScreenProblem,
});

const digestRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/digest',
  validateSearch: parseDigestSearch,
  component: lazyRouteComponent(() => import('./screens/digest/digest-screen.tsx'), 'DigestScreen'),
  errorComponent: ScreenProblem,
});

const vehicleRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/vehicles/$vehicle',
  validateSearch: parseVehicleSearch,
  component: lazyRouteComponent(() => import('./screens/vehicle/vehicle-screen.tsx'), 'VehicleScreen'),
  errorComponent: ScreenProblem,
});

const packetsRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/packets',
  validateSearch: parsePacketsSearch,
  component: lazyRouteComponent(() => import('./screens/packets/packets-screen.tsx'), 'PacketsScreen'),
  errorComponent: ScreenProblem,
});

const packetRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/packets/$id',
  validateSearch: parsePacketSearch,
  component: lazyRouteComponent(() => import('./screens/packet/packet-screen.tsx'), 'PacketScreen'),
  errorComponent: ScreenProblem,
});

const sharedRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/shared',
  validateSearch: parsePacketSearch,
  component: lazyRouteComponent(() => import('./screens/packet/shared-screen.tsx'), 'SharedScreen'),
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

const atlasRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/platforms/$platform/atlas',
  validateSearch: parseAtlasSearch,
  component: lazyRouteComponent(() => import('./screens/atlas/atlas-screen.tsx'), 'AtlasScreen'),
  errorComponent: ScreenProblem,
});

const analysisRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/analysis',
  component: lazyRouteComponent(() => import('./screens/analysis/analysis-layout.tsx'), 'AnalysisLayout'),
  errorComponent: ScreenProblem,
});

const analysisStartRoute = createRoute({
  getParentRoute: () => analysisRoute,
  path: '/',
  beforeLoad: () => {
    throw redirect({ to: '/analysis/lives', replace: true });
  },
});

const livesRoute = createRoute({
  getParentRoute: () => analysisRoute,
  path: '/lives',
  validateSearch: parseLivesSearch,
  component: lazyRouteComponent(() => import('./screens/lives/lives-screen.tsx'), 'LivesScreen'),
  errorComponent: ScreenProblem,
});

const replayRoute = createRoute({
  getParentRoute: () => analysisRoute,
  path: '/replay',
  validateSearch: parseReplaySearch,
  component: lazyRouteComponent(() => import('./screens/replay/replay-screen.tsx'), 'ReplayScreen'),
  errorComponent: ScreenProblem,
});

const workbenchRoute = createRoute({
  getParentRoute: () => analysisRoute,
  path: '/workbench',
  validateSearch: parseWorkbenchSearch,
  component: lazyRouteComponent(() => import('./screens/workbench/workbench-screen.tsx'), 'WorkbenchScreen'),
  errorComponent: ScreenProblem,
});

const intakeRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/intake',
  component: lazyRouteComponent(() => import('./screens/intake/intake-layout.tsx'), 'IntakeLayout'),
  errorComponent: ScreenProblem,
});

const intakeStartRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/',
  beforeLoad: () => {
    throw redirect({ to: '/intake/deliveries', replace: true });
  },
});

const deliveriesRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/deliveries',
  validateSearch: parseDeliveriesSearch,
  component: lazyRouteComponent(
    () => import('./screens/intake/deliveries/deliveries-screen.tsx'),
    'DeliveriesScreen',
  ),
  errorComponent: ScreenProblem,
});

const refusedRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/refused',
  validateSearch: parseRefusedSearch,
  component: lazyRouteComponent(() => import('./screens/intake/refused/refused-screen.tsx'), 'RefusedScreen'),
  errorComponent: ScreenProblem,
});

const gatewaysRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/gateways',
  component: lazyRouteComponent(
    () => import('./screens/intake/gateways/gateways-screen.tsx'),
    'GatewaysScreen',
  ),
  errorComponent: ScreenProblem,
});

const toCompleteRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/vehicles',
  validateSearch: parseToCompleteSearch,
  component: lazyRouteComponent(
    () => import('./screens/intake/vehicles/to-complete-screen.tsx'),
    'ToCompleteScreen',
  ),
  errorComponent: ScreenProblem,
});

const bringRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/bring',
  validateSearch: parseBringSearch,
  component: lazyRouteComponent(() => import('./screens/intake/bring/bring-screen.tsx'), 'BringScreen'),
  errorComponent: ScreenProblem,
});

const setUpFilesRoute = createRoute({
  getParentRoute: () => intakeRoute,
  path: '/set-up',
  validateSearch: parseSetUpSearch,
  component: lazyRouteComponent(() => import('./screens/intake/set-up/set-up-screen.tsx'), 'SetUpScreen'),
  errorComponent: ScreenProblem,
});

const signInRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/sign-in',
  validateSearch: parseSignInSearch,
  component: lazyRouteComponent(() => import('./screens/sign-in/go-on.tsx'), 'GoOn'),
});

const welcomeRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/welcome',
  component: lazyRouteComponent(() => import('./screens/welcome/welcome-screen.tsx'), 'WelcomeScreen'),
  errorComponent: ScreenProblem,
});

const accountRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/account',
  component: lazyRouteComponent(() => import('./screens/account/account-screen.tsx'), 'AccountScreen'),
  errorComponent: ScreenProblem,
});

const settingsRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/settings',
  component: lazyRouteComponent(() => import('./screens/settings/settings-layout.tsx'), 'SettingsLayout'),
  errorComponent: ScreenProblem,
});

const settingsStartRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/',
  beforeLoad: () => {
    throw redirect({ to: '/settings/people', replace: true });
  },
});

const peopleRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/people',
  validateSearch: parsePeopleSearch,
  component: lazyRouteComponent(() => import('./screens/settings/people/people-screen.tsx'), 'PeopleScreen'),
  errorComponent: ScreenProblem,
});

const keysRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/keys',
  component: lazyRouteComponent(() => import('./screens/settings/keys/keys-screen.tsx'), 'KeysScreen'),
  errorComponent: ScreenProblem,
});

const webhooksRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/webhooks',
  validateSearch: parseWebhooksSearch,
  component: lazyRouteComponent(
    () => import('./screens/settings/webhooks/webhooks-screen.tsx'),
    'WebhooksScreen',
  ),
  errorComponent: ScreenProblem,
});

const depotsRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/depots',
  validateSearch: parseOpenSearch,
  component: lazyRouteComponent(() => import('./screens/settings/depots/depots-screen.tsx'), 'DepotsScreen'),
  errorComponent: ScreenProblem,
});

const platformSettingsRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/platforms',
  validateSearch: parseOpenSearch,
  component: lazyRouteComponent(
    () => import('./screens/settings/platforms/platforms-screen.tsx'),
    'PlatformSettingsScreen',
  ),
  errorComponent: ScreenProblem,
});

const thresholdsRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/thresholds',
  component: lazyRouteComponent(
    () => import('./screens/settings/thresholds/thresholds-screen.tsx'),
    'ThresholdsScreen',
  ),
  errorComponent: ScreenProblem,
});

const storageRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/storage',
  validateSearch: parseStorageSearch,
  component: lazyRouteComponent(
    () => import('./screens/settings/storage/storage-screen.tsx'),
    'StorageScreen',
  ),
  errorComponent: ScreenProblem,
});

const changesRoute = createRoute({
  getParentRoute: () => settingsRoute,
  path: '/changes',
  validateSearch: parseChangesSearch,
  component: lazyRouteComponent(
    () => import('./screens/settings/changes/changes-screen.tsx'),
    'ChangesScreen',
  ),
  errorComponent: ScreenProblem,
});

const routeTree = rootRoute.addChildren([
  inspectionListRoute,
  bayPlanRoute,
  digestRoute,
  vehicleRoute,
  packetsRoute,
  packetRoute,
  sharedRoute,
  platformsRoute,
  platformRoute,
  atlasRoute,
  analysisRoute.addChildren([analysisStartRoute, livesRoute, replayRoute, workbenchRoute]),
  intakeRoute.addChildren([
    intakeStartRoute,
    deliveriesRoute,
    refusedRoute,
    gatewaysRoute,
    toCompleteRoute,
    bringRoute,
    setUpFilesRoute,
  ]),
  signInRoute,
  welcomeRoute,
  accountRoute,
  settingsRoute.addChildren([
    settingsStartRoute,
    peopleRoute,
    keysRoute,
    webhooksRoute,
    depotsRoute,
    platformSettingsRoute,
    thresholdsRoute,
    storageRoute,
    changesRoute,
  ]),
]);

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
