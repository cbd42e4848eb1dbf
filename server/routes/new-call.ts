import { createRoute, type RouteConfig } from '@hono/zod-openapi';
import { type AccessRule, type AccessRuleName, accessRules } from '#server/contract/access-rules.ts';
import { problems } from './new-routes.ts';

/** Names of the security schemes in the document. */
export const BY_KEY = 'key';
export const BY_COOKIE = 'session';

/**
 * A call of the interface, with the rule that says whom it answers. The rule stands in the document as `x-access`, from
 * where `middleware/guard-calls.ts` takes it: a call that is made in another way answers nobody.
 */
export function newCall<const P extends string, const R extends Omit<RouteConfig, 'path'> & { path: P }>(
  access: AccessRuleName,
  call: R,
): ReturnType<typeof createRoute<P, R>> {
  const rule: AccessRule = accessRules[access];
  const isOpen = rule.anyone === true;
  const ways = [{ [BY_COOKIE]: [] }, ...(rule.keys.length > 0 ? [{ [BY_KEY]: [] }] : [])];
  return createRoute<P, R>({
    ...call,
    description: [call.description, `For: ${rule.says}.`].filter(Boolean).join(' '),
    responses: { ...(isOpen ? {} : problems(401, 403, 429)), ...call.responses },
    'x-access': access,
    security: isOpen ? [] : ways,
  });
}
