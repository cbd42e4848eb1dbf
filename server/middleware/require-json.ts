import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

/** What the framework takes for JSON: of another type it reads no body at all. */
const JSON_TYPE = /^application\/([a-z.-]+\+)?json(; *[\w-]+=[^;]+)*$/i;

/** Declines a body in another format than JSON, where JSON is what the call takes. */
export function requireJson() {
  return createMiddleware(async (c, next) => {
    const hasBody =
      Number(c.req.header('Content-Length') ?? 0) > 0 || c.req.header('Transfer-Encoding') !== undefined;
    const type = c.req.header('Content-Type');
    if (hasBody && !JSON_TYPE.test(type ?? ''))
      throw new SlipdriftError(
        'unsupported_content_type',
        `This call takes application/json, and the body was sent as ${type ?? 'nothing in particular'}. Nothing was changed.`,
      );
    await next();
  });
}
