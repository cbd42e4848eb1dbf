import type { Context, ErrorHandler, NotFoundHandler } from 'hono';
import { HTTPException } from 'hono/http-exception';
import type { Logger } from 'pino';
import { SlipdriftError, toProblem, toSlipdriftError } from '#server/errors.ts';

/** Turns whatever was thrown into a problem document; the log gets what the sender must not see. */
export function answerProblems(log: Logger): ErrorHandler {
  return (thrown, c) => {
    const error = thrown instanceof HTTPException ? fromFramework(thrown) : toSlipdriftError(thrown);
    const request = requestId(c);
    // Nobody is there any more to whom it could be told: not a fault of ours.
    const level = c.req.raw.signal.aborted ? 'info' : 'error';
    if (error.status >= 500)
      log[level]({ request, code: error.code, err: error.cause ?? error }, error.message);
    return respond(c, error, request);
  };
}

/** `offered` names the methods that a path has handlers for. */
export function answerNotFound(offered: (path: string) => string[]): NotFoundHandler {
  return (c) => {
    const methods = offered(c.req.path);
    if (methods.length === 0)
      return respond(
        c,
        new SlipdriftError('not_found', `There is nothing at ${c.req.path}. /api lists what there is.`),
        requestId(c),
      );
    c.header('Allow', methods.join(', '));
    const detail = `${c.req.path} does not take ${c.req.method}; it takes ${methods.join(', ')}.`;
    return respond(c, new SlipdriftError('method_not_allowed', detail), requestId(c));
  };
}

/** hono's own checks throw these before a handler runs. */
function fromFramework(error: HTTPException): SlipdriftError {
  if (error.status === 400)
    return new SlipdriftError('body_broken', 'The body is not JSON that can be read. Nothing was changed.', {
      cause: error,
    });
  return toSlipdriftError(error);
}

function respond(c: Context, error: SlipdriftError, request: string): Response {
  if (error.retryAfterS !== undefined) c.header('Retry-After', String(error.retryAfterS));
  if (error.code === 'unauthorized') c.header('WWW-Authenticate', 'Bearer');
  c.header('Cache-Control', 'no-store');
  return c.body(JSON.stringify(toProblem(error, request)), error.status, {
    'Content-Type': 'application/problem+json',
  });
}

const requestId = (c: Context): string => String(c.get('requestId') ?? '');
