import { listAhead, listFirstReasons, readPlannable, readUsualPaces } from '#db/queries/list-plannable.ts';
import type { Plan, PlanRequest } from '#server/contract/plan.ts';
import { addDays } from '#server/services/calendar/depot-days.ts';
import { momentOf } from '#server/services/calendar/local-time.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { askDepot } from './ask-depot.ts';
import { findGaps } from './find-gaps.ts';
import { MOST_WAIT_DAYS } from './plan-limits.ts';
import { listPlannedDepots } from './planned-depots.ts';
import { readPlatforms } from './read-platforms.ts';
import { refuseVehicles } from './refuse-vehicles.ts';
import type { SolveDepots } from './solve-depots.ts';
import { type DepotRoom, sortVehicles } from './sort-vehicles.ts';
import { writePlan } from './write-plan.ts';

/** Proposes bay days for the vehicles whose inspection avoids most. Nothing is stored. */
export async function proposePlan(ctx: Context, request: PlanRequest, solve: SolveDepots): Promise<Plan> {
  const started = performance.now();
  const now = ctx.now();
  const spans = await listPlannedDepots(ctx, request);
  if (request.vehicles !== undefined) await refuseVehicles(ctx, request.vehicles, request.depots);
  const to =
    spans
      .map((span) => span.to)
      .toSorted()
      .at(-1) ?? '';
  const countedTo = addDays(to, Math.min(request.days, MOST_WAIT_DAYS));
  const [platformOf, usualPaces, taken, book] = await Promise.all([
    readPlatforms(ctx.db),
    readUsualPaces(ctx.db),
    listAhead(
      ctx.db,
      spans.map(({ depot }) => depot.id),
      { now, before: momentOf('UTC', addDays(to, 2), '00:00') },
    ),
    readCodeBook(ctx.db),
  ]);
  const rooms = spans.map((span): DepotRoom => {
    const own = taken.filter(({ depot }) => depot === span.depot.id);
    return { ...span, room: span.days.map((day) => findGaps(span.depot, day, own, now)) };
  });
  const pages = readPlannable(ctx.db, {
    sight: sightOf(ctx.actor),
    depots: request.depots,
    units: request.vehicles,
    now,
  });
  const sorted = await sortVehicles(pages, {
    rooms: new Map(rooms.map((room) => [room.depot.id, room])),
    platformOf,
    usualPaces,
    named: new Set(request.vehicles),
    countedTo,
    now,
  });
  const asked = rooms.map((room) => askDepot(room, sorted.candidates));
  const solved = await solve(asked.map(({ question }) => question));
  const seated = asked.flatMap(({ members }, i) =>
    (solved[i]?.plan.seatings ?? []).flatMap(({ candidates }) =>
      candidates.flatMap((candidate) => members[candidate]?.row.key ?? []),
    ),
  );
  const reasons = await listFirstReasons(ctx.db, seated);
  const plan = writePlan({
    asked,
    solved,
    sorted,
    taken,
    reasons: new Map(reasons.map(({ key, reason }) => [key, reason])),
    book,
    units: request.units,
    countedTo,
    now,
  });
  return { ...plan, seconds: Math.round(performance.now() - started) / 1000 };
}
