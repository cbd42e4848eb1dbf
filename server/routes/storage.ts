import { storageReport } from '#server/contract/storage.ts';
import { getStorage } from '#server/services/storage/get-storage.ts';
import { keepAll } from '#server/services/storage/upkeep-limits.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes } from './new-routes.ts';

const read = newCall('administer', {
  method: 'get',
  path: '/api/storage',
  summary: 'How much is stored, what retention takes away, and how the upkeep goes',
  description: 'Sizes are those on disk now; rows are estimates of the database where they say so.',
  responses: { 200: { description: 'As it stands now', ...asJson(storageReport) } },
});

export function createStorageRoutes({ upkeepLimits = keepAll }: Pick<RouteDeps, 'upkeepLimits'>) {
  return newRoutes().openapi(read, async (c) => c.json(await getStorage(c.var.context, upkeepLimits), 200));
}
