import type { OpenAPIHono } from '@hono/zod-openapi';
import type { MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { compress } from 'hono/compress';
import { requestId } from 'hono/request-id';
import { secureHeaders } from 'hono/secure-headers';
import { SlipdriftError } from './errors.ts';
import { answerNotFound, answerProblems } from './middleware/answer-problems.ts';
import { giveContext } from './middleware/give-context.ts';
import { requireJson } from './middleware/require-json.ts';
import { requireKey } from './middleware/require-key.ts';
import { requireLocalHost } from './middleware/require-local-host.ts';
import { watchRequests } from './middleware/watch-requests.ts';
import { createAnalysisRoutes } from './routes/analysis.ts';
import { createAssessRoutes } from './routes/assess.ts';
import type { RequestEnv, RouteDeps } from './routes/deps.ts';
import { createDocumentRoutes } from './routes/document.ts';
import { createFleetRoutes } from './routes/fleet.ts';
import { createHealthRoutes } from './routes/health.ts';
import { createMovementRoutes } from './routes/movement.ts';
import { newRoutes } from './routes/new-routes.ts';
import { createRankingRoutes } from './routes/ranking.ts';
import { createReadingRoutes } from './routes/readings.ts';
import { createReceiptRoutes } from './routes/receipts.ts';
import { createScreenRoutes } from './routes/screens.ts';
import { createVehicleRoutes } from './routes/vehicles.ts';

export interface AppDeps extends RouteDeps {
  apiKey: string | null;
  /** folder of the built screens */
  screensFolder: string;
}

/** Builds the server without starting anything. */
export function createApp(deps: AppDeps) {
  const { log } = deps.context;
  const app = newRoutes();
  app.onError(answerProblems(log));
  app.notFound(answerNotFound((path) => methodsAt(app, path)));
  app.use(requestId({ limitLength: 64 }));
  app.use(watchRequests(log, deps.metrics.requests));
  app.use(secureHeaders(HEADERS));
  app.use(giveContext(deps.context));
  app.route('/', createHealthRoutes(deps));

  app.use(compress({ threshold: 1024 }));
  // Tells nothing of a fleet, and a browser that only follows a link to it cannot bring a key.
  app.route('/', createDocumentRoutes(app, deps.apiKey !== null));
  app.use('/api/*', deps.apiKey === null ? requireLocalHost() : requireKey(deps.apiKey));
  app.use('/api/*', besidesDeliveries(requireJson()));
  app.use('/api/*', besidesDeliveries(limitBody()));

  // Resources: one file each, mounted here. Paths in the files begin with /api.
  app.route('/', createFleetRoutes(deps));
  app.route('/', createReadingRoutes(deps));
  app.route('/', createReceiptRoutes());
  app.route('/', createAssessRoutes(deps));
  app.route('/', createRankingRoutes());
  app.route('/', createVehicleRoutes());
  app.route('/', createAnalysisRoutes());
  app.route('/', createMovementRoutes());

  app.route('/', createScreenRoutes(deps.screensFolder));
  return app;
}

const HEADERS: Parameters<typeof secureHeaders>[0] = {
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    styleSrc: ["'self'", "'unsafe-inline'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
  strictTransportSecurity: false,
};

const SMALL_BODY_BYTES = 16 * 1024 * 1024;

function limitBody(): MiddlewareHandler {
  return bodyLimit({
    maxSize: SMALL_BODY_BYTES,
    onError: () => {
      throw new SlipdriftError(
        'body_too_large',
        'The body is over 16 MiB. Nothing was changed; send it in several requests.',
      );
    },
  });
}

/** Deliveries come in several formats, are streamed and bring their own, larger limit. */
const besidesDeliveries =
  (middleware: MiddlewareHandler): MiddlewareHandler =>
  (c, next) =>
    c.req.path === '/api/readings' ? next() : middleware(c, next);

/** Methods with a handler of their own at this path; middleware answers to all. */
function methodsAt(app: OpenAPIHono<RequestEnv>, path: string): string[] {
  return ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'].filter((method) =>
    app.router.match(method, path)[0].some(([[, route]]) => route.method === method && route.path !== '/*'),
  );
}
