import { plan, planRequest } from '#server/contract/plan.ts';
import { startPlanningThread } from '#server/planning-thread/start-planning-thread.ts';
import { proposePlan } from '#server/services/plan/propose-plan.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const postPlan = newCall('plan', {
  method: 'post',
  path: '/api/plan',
  summary: 'Propose bay days for the vehicles whose inspection avoids most',
  description:
    'Nothing is booked: a proposal is accepted by booking what is wanted of it. Vehicles on hold come first; they are weighed as if they were driven on. It takes some seconds, at most ten; where the best plan could not be proved in that time, `gap` says how much better it could be. Plans are made one after another: 503 says that too many wait.',
  request: { body: { required: true, ...asJson(planRequest) } },
  responses: { 200: { description: 'The proposal', ...asJson(plan) }, ...problems(400, 404, 409, 503) },
});

export function createPlanRoutes() {
  const routes = newRoutes();
  const thread = startPlanningThread();
  routes.openapi(postPlan, async (c) => {
    const { context } = c.var;
    const solve = thread.run(c.req.raw.signal, (fault) =>
      context.log.error({ fault }, 'the solver of plans died'),
    );
    return c.json(await proposePlan(context, c.req.valid('json'), solve), 200);
  });
  return routes;
}
