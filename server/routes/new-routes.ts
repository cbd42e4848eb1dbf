import { OpenAPIHono } from '@hono/zod-openapi';
import type { z } from 'zod';
import { problem } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { RequestEnv } from './deps.ts';

/** An empty set of routes whose requests are checked against their zod schemas before a handler sees them. */
export function newRoutes(): OpenAPIHono<RequestEnv> {
  return new OpenAPIHono<RequestEnv>({
    defaultHook(result) {
      if (result.success) return;
      const errors = result.error.issues.flatMap(mostTelling).map((issue) => ({
        field: issue.path.map(String).join('.'),
        message: issue.message,
      }));
      const [first] = errors;
      const where = result.target === 'json' ? 'body' : result.target;
      const named = first === undefined || first.field === '' ? '' : ` '${first.field}'`;
      throw new SlipdriftError(
        'invalid_request',
        `The ${where} is not right:${named} ${first?.message ?? 'unreadable'}${errors.length > 1 ? ` (and ${errors.length - 1} more)` : ''}. Nothing was changed.`,
        { errors },
      );
    },
  });
}

type Issue = z.core.$ZodIssue;

/** Where one of several shapes would do, tells what is wrong with the one that came closest. */
function mostTelling(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const depth = (branch: Issue[]) => Math.max(0, ...branch.map((inner) => inner.path.length));
  const [closest] = issue.errors.toSorted((a, b) => depth(b) - depth(a));
  if (closest === undefined || closest.length === 0) return [issue];
  return closest.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] })).flatMap(mostTelling);
}

const said: Record<number, string> = {
  400: 'The request is not right; `errors` says where',
  401: 'Who asks is not known',
  403: 'Not allowed',
  404: 'No such thing',
  409: 'It does not fit what is there, or the same is in progress',
  413: 'The body is too large',
  415: 'The content type is not understood',
  422: 'The idempotency key was used for another body',
  429: 'Too often',
  503: 'Too busy, or storage does not answer',
  507: 'Storage is full',
};

/** A body of a request or an answer: JSON of this schema. */
export const asJson = <S extends z.ZodType>(schema: S) => ({ content: { 'application/json': { schema } } });

/** The problem answers of an operation, for its OpenAPI description: `...problems(400, 404)`. */
export function problems<Status extends number>(...statuses: Status[]) {
  const content = { 'application/problem+json': { schema: problem } };
  const entries = statuses.map((status) => [status, { description: said[status] ?? 'Problem', content }]);
  return Object.fromEntries(entries) as Record<Status, { description: string; content: typeof content }>;
}
