import type { OpenAPIHono } from '@hono/zod-openapi';
import type { MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { compress } from 'hono/compress';
import { requestId } from 'hono/request-id';
import { secureHeaders } from 'hono/secure-headers';
import { z } from 'zod';
import { sayBounds } from './contract/say-bounds.ts';
import { SlipdriftError } from './errors.ts';
import { answerNotFound, answerProblems } from './middleware/answer-problems.ts';
import { giveContext } from './middleware/give-context.ts';
import { type DescribedCall, guardCalls } from './middleware/guard-calls.ts';
import { identify } from './middleware/identify.ts';
import { keepOutOfCaches } from './middleware/keep-out-of-caches.ts';
import { refuseNul } from './middleware/refuse-nul.ts';
import { requireJson } from './middleware/require-json.ts';
import { createOwnOrigin, requireKnownHost } from './middleware/require-known-host.ts';
import { watchRequests } from './middleware/watch-requests.ts';
import { createAnalysisRoutes } from './routes/analysis.ts';
import { createAssessRoutes } from './routes/assess.ts';
import { createAtlasRoutes } from './routes/atlas.ts';
import { createBookingRoutes } from './routes/bookings.ts';
import { createChangeRoutes } from './routes/changes.ts';
import type { RequestEnv, RouteDeps } from './routes/deps.ts';
import { createDigestRoutes } from './routes/digest.ts';
import { createDocumentRoutes } from './routes/document.ts';
import { createExportRoutes } from './routes/exports.ts';
import { createFeedRoutes } from './routes/feeds.ts';
import { createFleetRoutes } from './routes/fleet.ts';
import { createHealthRoutes } from './routes/health.ts';
import { createIntakeRoutes } from './routes/intake.ts';
import { createKeyRoutes } from './routes/keys.ts';
import { createLifeRoutes } from './routes/lives.ts';
import { createLookRoutes } from './routes/looks.ts';
import { createMappingRoutes } from './routes/mappings.ts';
import { createMovementRoutes } from './routes/movement.ts';
import { newRoutes } from './routes/new-routes.ts';
import { createPacketRoutes } from './routes/packets.ts';
import { createPeopleRoutes } from './routes/people.ts';
import { createPlanRoutes } from './routes/plan.ts';
import { createRankingRoutes } from './routes/ranking.ts';
import { createReadingRoutes } from './routes/readings.ts';
import { createReceiptRoutes } from './routes/receipts.ts';
import { REFERENCE_STYLE_HASH } from './routes/reference-style.ts';
import { createRefusedRoutes } from './routes/refused.ts';
import { createReplayRoutes } from './routes/replay.ts';
import { createSavedFilterRoutes } from './routes/saved-filters.ts';
import { createScreenRoutes } from './routes/screens.ts';
import { createSessionRoutes } from './routes/session.ts';
import { createSetUpFileRoutes } from './routes/set-up-files.ts';
import { createSettingsRoutes } from './routes/settings.ts';
import { createShopRoutes } from './routes/shop.ts';
import { createStorageRoutes } from './routes/storage.ts';
import { createVehicleRoutes } from './routes/vehicles.ts';
import { createWebhookRoutes } from './routes/webhooks.ts';
import { createWorkbenchRoutes } from './routes/workbench.ts';
import { nobody } from './services/actor.ts';
import { createHolderFinder } from './services/packets/find-holder.ts';
import { findPerson } from './services/people/find-person.ts';

export interface AppDeps extends RouteDeps {
  apiKey: string | null;
  /** proxies of our own that add to X-Forwarded-For */
  proxies: number;
  /** folder of the built screens */
  screensFolder: string;
}

z.config({ customError: sayBounds });

/** Builds the server without starting anything. */
export function createApp(deps: AppDeps) {
  const { log } = deps.context;
  const { library, publicUrl } = deps.people;
  const app = newRoutes();
  app.onError(answerProblems(log));
  app.notFound(answerNotFound((path) => methodsAt(app, path)));
  app.use(requestId({ limitLength: 64 }));
  app.use(watchRequests(log, deps.metrics.requests));
  app.use(secureHeaders(headersFor(publicUrl)));
  app.use(giveContext({ ...deps.context, actor: nobody }, deps.proxies));
  app.route('/', createHealthRoutes(deps));

  app.use(compress({ threshold: 1024 }));
  // Tells nothing of a fleet, and a browser that only follows a link to it cannot bring a key.
  app.route('/', createDocumentRoutes(app));
  app.use('/api/*', keepOutOfCaches());
  app.use('/api/*', refuseNul());
  app.use('/api/*', requireKnownHost(publicUrl));
  app.use(
    '/api/*',
    identify(
      {
        findKey: createHolderFinder(deps.context, deps.apiKey),
        findPerson: (headers) => findPerson(deps.context, library, headers),
      },
      createOwnOrigin(publicUrl),
    ),
  );
  app.use(
    '/api/*',
    guardCalls(() => describedCalls(app)),
  );
  app.use('/api/*', besidesFiles(requireJson()));
  app.use('/api/*', besidesLongBodies(limitBody()));

  // Resources: one file each, mounted here. Paths in the files begin with /api.
  app.route('/', createFleetRoutes(deps));
  app.route('/', createSetUpFileRoutes(deps));
  app.route('/', createReadingRoutes(deps));
  app.route('/', createLookRoutes(deps));
  app.route('/', createMappingRoutes());
  app.route('/', createReceiptRoutes());
  app.route('/', createIntakeRoutes());
  app.route('/', createRefusedRoutes(deps));
  app.route('/', createAssessRoutes(deps));
  app.route('/', createRankingRoutes());
  app.route('/', createSavedFilterRoutes());
  app.route('/', createVehicleRoutes());
  app.route('/', createAnalysisRoutes());
  app.route('/', createReplayRoutes(deps));
  app.route('/', createWorkbenchRoutes());
  app.route('/', createLifeRoutes());
  app.route('/', createMovementRoutes());
  app.route('/', createAtlasRoutes());
  app.route('/', createDigestRoutes(deps));
  app.route('/', createPlanRoutes());
  app.route('/', createShopRoutes());
  app.route('/', createPacketRoutes(deps));
  app.route('/', createBookingRoutes());
  app.route('/', createFeedRoutes(deps));
  app.route('/', createExportRoutes());
  app.route('/', createSessionRoutes(deps));
  app.route('/', createPeopleRoutes(deps));
  app.route('/', createKeyRoutes());
  app.route('/', createWebhookRoutes(deps));
  app.route('/', createChangeRoutes());
  app.route('/', createSettingsRoutes(deps));
  app.route('/', createStorageRoutes(deps));

  app.route('/', createScreenRoutes(deps.screensFolder));
  return app;
}

const headersFor = (publicUrl: string | null): Parameters<typeof secureHeaders>[0] => ({
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    scriptSrc: ["'self'"],
    styleSrcElem: ["'self'", REFERENCE_STYLE_HASH],
    // Charts place their tooltip and its marks by style attributes.
    styleSrcAttr: ["'unsafe-inline'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
  permissionsPolicy: { camera: [], microphone: [], geolocation: [], payment: [], usb: [] },
  referrerPolicy: 'same-origin',
  strictTransportSecurity: publicUrl?.startsWith('https:') ? 'max-age=31536000' : false,
});

const SMALL_BODY_BYTES = 16 * 1024 * 1024;

/** Looking for a body makes a web request of what came, which costs more than the rest of the way; GET and HEAD have none. */
function limitBody(): MiddlewareHandler {
  const limit = bodyLimit({
    maxSize: SMALL_BODY_BYTES,
    onError: () => {
      throw new SlipdriftError(
        'body_too_large',
        'The body is over 16 MiB. Nothing was changed; send it in several requests.',
      );
    },
  });
  return (c, next) => (c.req.method === 'GET' || c.req.method === 'HEAD' ? next() : limit(c, next));
}

/** Deliveries, photographs and recorded traces are no JSON and bring limits of their own. */
const OTHER_BODIES = /^\/api\/(set-up\/[^/]+|readings(\/look)?|packets\/[^/]+\/(road-test|photos))$/;
/** JSON that brings its own limit. */
const LONG_BODIES = /^\/api\/analysis\/lives$/;
const besides =
  (...paths: RegExp[]) =>
  (middleware: MiddlewareHandler): MiddlewareHandler =>
  (c, next) =>
    paths.some((one) => one.test(c.req.path)) ? next() : middleware(c, next);
const besidesFiles = besides(OTHER_BODIES);
const besidesLongBodies = besides(OTHER_BODIES, LONG_BODIES);

/** What the document says of every call, with its rule. */
const describedCalls = (app: OpenAPIHono<RequestEnv>): DescribedCall[] =>
  app.openAPIRegistry.definitions.flatMap((one) => (one.type === 'route' ? [one.route] : []));

/** Methods with a handler of their own at this path; middleware answers to all. */
function methodsAt(app: OpenAPIHono<RequestEnv>, path: string): string[] {
  return ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'].filter((method) =>
    app.router.match(method, path)[0].some(([[, route]]) => route.method === method && route.path !== '/*'),
  );
}
