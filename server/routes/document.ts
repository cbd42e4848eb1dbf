import type { OpenAPIHono } from '@hono/zod-openapi';
import type { RequestEnv } from './deps.ts';
import { describeSchemas, namesWithin } from './describe-schemas.ts';
import { BY_COOKIE, BY_KEY } from './new-call.ts';
import { newRoutes } from './new-routes.ts';
import { type ApiDocument, renderReference } from './render-reference.ts';

const about = {
  openapi: '3.1.0',
  info: {
    title: 'Slipdrift',
    version: '0.1.0',
    description:
      'Readings in, the inspection list out. Units are in the field names; metric, with miles and Fahrenheit accepted where a field for them exists. Times are RFC 3339. Errors are RFC 9457 problem documents.',
    license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
  },
  servers: [{ url: '/' }],
};

/** The description of the interface, made from the schemas that check the requests, and a page to read it. */
export function createDocumentRoutes(app: OpenAPIHono<RequestEnv>) {
  let kept: ApiDocument | undefined;
  const document = () => {
    kept ??= describe(app);
    return kept;
  };
  return newRoutes()
    .get('/api/openapi.json', (c) => c.json(document()))
    .get('/api', (c) => c.html(renderReference(document())));
}

function describe(app: OpenAPIHono<RequestEnv>): ApiDocument {
  const generated = app.getOpenAPI31Document(about);
  const schemas = describeSchemas(namesWithin(generated.paths));
  return {
    ...(generated as unknown as ApiDocument),
    components: { schemas, securitySchemes },
  };
}

const securitySchemes = {
  [BY_KEY]: {
    type: 'http',
    scheme: 'bearer',
    description: 'A key of a machine, made by an admin, or that of SLIPDRIFT_API_KEY',
  },
  [BY_COOKIE]: {
    type: 'apiKey',
    in: 'cookie',
    name: 'slipdrift.session_token',
    description:
      'The cookie that POST /api/session sets; over https its name begins with __Secure-. What changes something must come from our own pages: the Origin header says so.',
  },
};
