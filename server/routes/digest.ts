import { digest, digestChoice, digestQuery, digestState } from '#server/contract/digest.ts';
import { getDigest } from '#server/services/digest/get-digest.ts';
import { getMailChoice, setMailChoice } from '#server/services/digest/mail-choice.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const state = { description: 'What you chose, and what became of the last one', ...asJson(digestState) };

const calls = {
  read: newCall('readFleet', {
    method: 'get',
    path: '/api/digest',
    summary: 'The week: what a planner should know at its beginning',
    description:
      'Of the seven days up to now, or up to the beginning of a week that is past. Weeks begin on Monday, UTC, for depots in all zones.',
    request: { query: digestQuery },
    responses: { 200: { description: 'The digest', ...asJson(digest) }, ...problems(400) },
  }),
  look: newCall('officeSelf', {
    method: 'get',
    path: '/api/digest/mail',
    summary: 'Whether you get the digest by e-mail',
    responses: { 200: state },
  }),
  choose: newCall('officeSelf', {
    method: 'put',
    path: '/api/digest/mail',
    summary: 'Get the digest by e-mail, or no more',
    description: 'Sent on Mondays from 06:00 UTC, of your own depots.',
    request: { body: { required: true, ...asJson(digestChoice) } },
    responses: { 200: state, ...problems(400) },
  }),
};

export function createDigestRoutes({ canMail = false }: Pick<RouteDeps, 'canMail'>) {
  const routes = newRoutes();
  routes.openapi(calls.read, async (c) => c.json(await getDigest(c.var.context, c.req.valid('query')), 200));
  routes.openapi(calls.look, async (c) => c.json(await getMailChoice(c.var.context, canMail), 200));
  routes.openapi(calls.choose, async (c) =>
    c.json(await setMailChoice(c.var.context, c.req.valid('json'), canMail), 200),
  );
  return routes;
}
