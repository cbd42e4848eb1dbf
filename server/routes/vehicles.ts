import { z } from 'zod';
import { units } from '#server/contract/ranking.ts';
import { vehicleUnit } from '#server/contract/readings.ts';
import { vehicleDetail, vehicleHistory, vehicleSeries } from '#server/contract/vehicle.ts';
import { getHistory } from '#server/services/vehicles/get-history.ts';
import { getVehicle } from '#server/services/vehicles/get-vehicle.ts';
import { historyAsCsv } from '#server/services/vehicles/history-as-csv.ts';
import { writeSeries } from '#server/services/vehicles/write-series.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';
import { createSharedAnswer } from './share-answer.ts';

const params = z.object({ id: vehicleUnit });
const query = z.object({ units: units.optional() });

const vehicle = newCall('readVehicles', {
  method: 'get',
  path: '/api/vehicles/{id}',
  summary: 'One vehicle',
  request: { params, query },
  responses: {
    200: { description: 'The vehicle', content: { 'application/json': { schema: vehicleDetail } } },
    ...problems(400, 404),
  },
});

const series = newCall('readVehicles', {
  method: 'get',
  path: '/api/vehicles/{id}/series',
  summary: 'Its stretches at the reference point and by command band, with fit and forecast',
  request: { params },
  responses: {
    200: { description: 'Series', content: { 'application/json': { schema: vehicleSeries } } },
    ...problems(400, 404),
  },
});

const history = newCall('readVehicles', {
  method: 'get',
  path: '/api/vehicles/{id}/history',
  summary: 'Everything that happened to it',
  request: { params, query },
  responses: {
    200: { description: 'Events, newest first', content: { 'application/json': { schema: vehicleHistory } } },
    ...problems(400, 404),
  },
});

const historyCsv = newCall('readVehicles', {
  method: 'get',
  path: '/api/vehicles/{id}/history.csv',
  summary: 'Everything that happened to it, as CSV',
  request: { params, query },
  responses: { 200: csvAnswer, ...problems(400, 404) },
});

export function createVehicleRoutes() {
  const routes = newRoutes();
  const [answerVehicle, answerSeries] = [createSharedAnswer(), createSharedAnswer()];
  routes.openapi(vehicle, (c) => {
    const { id } = c.req.valid('param');
    const wanted = c.req.valid('query').units ?? 'metric';
    return answerVehicle(c, [id, wanted], () => getVehicle(c.var.context, id, wanted));
  });
  routes.openapi(series, (c) => {
    const { id } = c.req.valid('param');
    return answerSeries(c, id, () => writeSeries(c.var.context, id));
  });
  routes.openapi(history, async (c) =>
    c.json(
      await getHistory(c.var.context, c.req.valid('param').id, c.req.valid('query').units ?? 'metric'),
      200,
    ),
  );
  routes.openapi(historyCsv, async (c) => {
    const { id } = c.req.valid('param');
    const text = await historyAsCsv(c.var.context, id, c.req.valid('query').units ?? 'metric');
    return answerCsv(c, 'history', text);
  });
  return routes;
}
