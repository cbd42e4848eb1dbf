import type { Page } from 'playwright-core';
import { type Access, makeAccess } from './fixtures/access-fixture.ts';
import { makeDetail, makeHistory } from './fixtures/vehicle-answers.ts';
import type { VehicleCase } from './fixtures/vehicle-cases.ts';
import { makeSeries } from './fixtures/vehicle-series.ts';
import { origin, serveFixture } from './open-page.ts';

/** Answers the calls of one vehicle's screen from its case, over whatever else the page is served. */
export async function serveVehicle(
  page: Page,
  one: VehicleCase,
  access: Access = makeAccess(),
): Promise<void> {
  await serveFixture(page, [], access);
  const path = `${origin}/api/vehicles/${encodeURIComponent(one.vehicle)}`;
  const answers: [string, () => unknown][] = [
    [path, () => ({ ...makeDetail(one), shop: access.atShop.get(one.vehicle) ?? null })],
    [`${path}/series`, () => makeSeries(one)],
    [`${path}/history`, () => makeHistory(one)],
  ];
  for (const [address, json] of answers)
    await page.route(
      (url) => url.origin + url.pathname === address,
      (route) => route.fulfill({ json: json() }),
    );
}

export const vehicleAddress = (one: VehicleCase, search = ''): string =>
  `${origin}/vehicles/${encodeURIComponent(one.vehicle)}${search}`;
