import { fleetLivesQuery, fleetLivesReply, lifeFits } from '#server/contract/lives.ts';
import { getFleetLives } from '#server/services/lives/get-fleet-lives.ts';
import { listFits } from '#server/services/lives/list-fits.ts';
import { livesAsCsv } from '#server/services/lives/lives-as-csv.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const get = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/lives',
  summary: "Statistics of life data on the fleet's own converters",
  description:
    'Lives of the vehicles that the asker may see, at mileages of the converter, km. What could not be used is counted in `left_out`; `fits` are the lives that the inspection list reckons with.',
  request: { query: fleetLivesQuery },
  responses: {
    200: { description: 'The statistics', content: { 'application/json': { schema: fleetLivesReply } } },
    ...problems(400),
  },
});

const getCsv = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/lives.csv',
  summary: 'The same lives as CSV',
  description:
    'A line each life that could be used: where it was first and last seen, how it ended and how it was used.',
  request: { query: fleetLivesQuery },
  responses: { 200: csvAnswer, ...problems(400) },
});

const getFits = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/life-fits',
  summary: "The lives of platforms' converters that the inspection list reckons with",
  responses: {
    200: {
      description: 'The newest fit of each platform, by name',
      content: { 'application/json': { schema: lifeFits } },
    },
  },
});

export function createLifeRoutes() {
  const routes = newRoutes();
  routes.openapi(get, async (c) => c.json(await getFleetLives(c.var.context, c.req.valid('query')), 200));
  routes.openapi(getCsv, async (c) =>
    answerCsv(c, 'lives', await livesAsCsv(c.var.context, c.req.valid('query'))),
  );
  routes.openapi(getFits, async (c) => c.json({ fits: await listFits(c.var.context) }, 200));
  return routes;
}
