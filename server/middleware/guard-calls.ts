import type { Context } from 'hono';
import { createMiddleware } from 'hono/factory';
import { matchedRoutes } from 'hono/route';
import { type AccessRule, type AccessRuleName, accessRules } from '#server/contract/access-rules.ts';
import type { KeyRight, Role } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';

interface Asking {
  role: Role | null;
  right: KeyRight | 'all' | null;
  depots: readonly string[] | null;
  link: { mayReport: boolean } | null;
}

/** One call of the interface as the document describes it. */
export interface DescribedCall {
  method: string;
  /** with parameters as in `/api/vehicles/{id}` */
  path: string;
  'x-access'?: unknown;
}

/**
 * Lets a call through where its rule names who asks. `describe` lists all calls with their rules; a call that it does
 * not list, or lists without a rule, answers nobody.
 */
export function guardCalls<C extends { actor: Asking }>(describe: () => readonly DescribedCall[]) {
  let rules: Map<string, AccessRuleName> | undefined;
  return createMiddleware<{ Variables: { context: C; known: boolean } }>(async (c, next) => {
    rules ??= readRules(describe());
    const called = calledRoute(c);
    if (called === null) return next();
    const rule = rules.get(called);
    if (rule === undefined)
      throw new SlipdriftError('not_allowed', 'This call has no rule and answers nobody.');
    decide(accessRules[rule], c.var.known ? c.var.context.actor : null);
    await next();
  });
}

function decide(rule: AccessRule, asking: Asking | null): void {
  if (rule.anyone === true) return;
  if (asking === null)
    throw new SlipdriftError(
      'unauthorized',
      'Sign in first, or send a key as a header: Authorization: Bearer <key>.',
    );
  const { role, right, depots, link } = asking;
  if (link !== null) {
    decideForLink(rule, link);
    return;
  }
  if (right === 'all') return;
  const allowed =
    role === null
      ? right !== null && rule.keys.includes(right)
      : rule.people.includes(role) && (rule.allDepots !== true || depots === null);
  if (!allowed)
    throw new SlipdriftError(
      'not_allowed',
      role === null
        ? `A key that may ${right} does not open this call. It is for: ${rule.says}. Nothing was changed.`
        : `This is not for ${rule.people.includes(role) ? 'some depots alone' : `the role ${role}`}. It is for: ${rule.says}. Nothing was changed.`,
    );
}

function decideForLink({ links, says }: AccessRule, { mayReport }: { mayReport: boolean }): void {
  if (links === 'read' || (links === 'report' && mayReport)) return;
  throw new SlipdriftError(
    'not_allowed',
    links === 'report'
      ? 'This link lets you read the packet and not report. Nothing was changed; ask whoever sent it for another.'
      : `The link of a packet does not open this call. It is for: ${says}. Nothing was changed.`,
  );
}

function readRules(calls: readonly DescribedCall[]): Map<string, AccessRuleName> {
  const rules = new Map<string, AccessRuleName>();
  for (const { method, path, 'x-access': name } of calls)
    if (isRule(name)) rules.set(`${method.toUpperCase()} ${path.replace(/\{(\w+)\}/g, ':$1')}`, name);
  return rules;
}

const isRule = (name: unknown): name is AccessRuleName =>
  typeof name === 'string' && Object.hasOwn(accessRules, name);

/**
 * Method and pattern of the handler that will answer: HEAD is answered as GET. Middleware answers to ALL, and the screens
 * to every path.
 */
function calledRoute(c: Context): string | null {
  const route = matchedRoutes(c).find(
    ({ method, path }) => method !== 'ALL' && path !== '/*' && path !== '*',
  );
  return route === undefined ? null : `${route.method} ${route.path}`;
}
