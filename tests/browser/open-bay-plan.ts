import type { Page, Route } from 'playwright-core';
import type { BayPlan } from '#server/contract/bookings.ts';
import { addDays } from '#server/services/calendar/depot-days.ts';
import { type Access, makeAccess } from './fixtures/access-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { origin, serveFixture } from './open-page.ts';

/** Answers the bay plan from one made plan, cut to the days asked for, over whatever else the page is served. */
export async function serveBayPlan(page: Page, plan: BayPlan, access: Access = makeAccess()): Promise<void> {
  await serveFixture(page, makeRows(60), access);
  await page.route(`${origin}/api/bay-plan?**`, (route: Route) => {
    const asked = new URL(route.request().url()).searchParams;
    const from = asked.get('from') ?? plan.from;
    const to = addDays(from, Number(asked.get('days') ?? 14) - 1);
    const within = ({ day }: { day: string | null }) => day !== null && day >= from && day <= to;
    const depot = asked.get('depot');
    const isHere = (id: string) => depot === null || id === depot;
    return route.fulfill({
      json: {
        ...plan,
        from,
        to,
        depots: plan.depots
          .filter(({ id }) => isHere(id))
          .map((one) => ({ ...one, days: one.days.filter(within) })),
        bookings: plan.bookings.filter((one) => within(one) && isHere(one.depot)),
      },
    });
  });
}
