import type { OpenAPIHono } from '@hono/zod-openapi';
import type { RequestEnv } from './deps.ts';
import { describeSchemas, namesWithin } from './describe-schemas.ts';
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
export function createDocumentRoutes(app: OpenAPIHono<RequestEnv>, needsKey: boolean) {
  let kept: ApiDocument | undefined;
  const document = () => {
    kept ??= describe(app, needsKey);
    return kept;
  };
  return newRoutes()
    .get('/api/openapi.json', (c) => c.json(document()))
    .get('/api', (c) => c.html(renderReference(document())));
}

function describe(app: OpenAPIHono<RequestEnv>, needsKey: boolean): ApiDocument {
  const generated = app.getOpenAPI31Document(about);
  const schemas = describeSchemas(namesWithin(generated.paths));
  const bearer = { type: 'http', scheme: 'bearer', description: 'The key of SLIPDRIFT_API_KEY' };
  return {
    ...(generated as unknown as ApiDocument),
    components: { schemas, ...(needsKey ? { securitySchemes: { bearer } } : {}) },
    ...(needsKey ? { security: [{ bearer: [] }] } : {}),
  };
}
