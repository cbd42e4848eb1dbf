import { asc } from 'drizzle-orm';
import { depots } from '#db/schema/fleet.ts';
import type { PlanRequest } from '#server/contract/plan.ts';
import { SlipdriftError } from '#server/errors.ts';
import { sayDay, sayList } from '#server/services/bookings/booking-words.ts';
import type { PlannedDepot } from '#server/services/bookings/object-to-day.ts';
import { refuse, wrong } from '#server/services/bookings/objection.ts';
import {
  addDays,
  type DayOfDepot,
  dayOfDepot,
  LAST_DAY_AHEAD,
  listDays,
} from '#server/services/calendar/depot-days.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';

/** A depot with the days that are planned of it. */
export interface DepotSpan {
  depot: PlannedDepot;
  today: string;
  from: string;
  to: string;
  /** on which somebody works */
  days: DayOfDepot[];
}

/** The depots that a request is about, each with its working days; or the refusal of what cannot be planned. */
export async function listPlannedDepots(ctx: Context, request: PlanRequest): Promise<DepotSpan[]> {
  const now = ctx.now();
  const chosen = await chooseDepots(ctx, request.depots);
  const todays = chosen.map(({ timeZone }) => localOf(timeZone, now).day);
  refuseDays(request, chosen, todays);
  const spans = chosen.map((depot, i): DepotSpan => {
    const today = todays[i] ?? '';
    const first = request.from ?? today;
    const to = addDays(first, request.days - 1);
    const [, from = first] = [first, today].toSorted();
    const days = listDays(from, to).map((day) => dayOfDepot(depot, day));
    return { depot, today, from, to, days: days.filter(({ hours }) => hours !== null) };
  });
  if (spans.some(({ days }) => days.length > 0)) return spans;
  const [first] = spans;
  const days =
    first === undefined ? '' : ` from ${sayDay(first.from, first.today)} to ${sayDay(first.to, first.today)}`;
  throw new SlipdriftError(
    'conflict',
    `Nothing can be planned: ${sayList(chosen.map(({ name }) => name))} ${chosen.length === 1 ? 'has no bay and working day' : 'have no bay and working day'}${days}. Ask for more days, or give a depot bays and hours in its calendar.`,
    { errors: [{ field: 'days', message: 'have no working day at any of the depots asked for' }] },
  );
}

async function chooseDepots(ctx: Context, asked: readonly string[] | undefined): Promise<PlannedDepot[]> {
  const all = await ctx.db.select().from(depots).orderBy(asc(depots.name), asc(depots.id));
  const unknown = asked?.find((id) => !all.some((depot) => depot.id === id));
  if (unknown !== undefined)
    throw refuse({
      code: 'not_found',
      field: 'depots',
      message: `No depot '${unknown}' is known. Depots are registered with POST /api/depots.`,
    });
  const foreign = asked?.find((id) => !isWithin(ctx, id));
  if (foreign !== undefined)
    throw refuse({
      code: 'not_allowed',
      field: 'depots',
      message: `You do not work for ${all.find(({ id }) => id === foreign)?.name ?? foreign}, so you cannot plan its bays.`,
    });
  const chosen = all.filter(({ id }) => asked?.includes(id) ?? isWithin(ctx, id));
  if (chosen.length > 0) return chosen;
  throw refuse({
    code: 'conflict',
    field: 'depots',
    message: 'There is no depot whose bays could be planned. Register one, with its bays, first.',
  });
}

function refuseDays(
  { from, days }: Pick<PlanRequest, 'from' | 'days'>,
  chosen: readonly PlannedDepot[],
  todays: readonly string[],
): void {
  if (from === undefined) return;
  const [today = from] = todays.toSorted();
  if (from < today)
    throw refuse(
      wrong(
        'from',
        `${sayDay(from, today)} is past: at ${chosen[todays.indexOf(today)]?.name} it is ${sayDay(today, from)}. Ask for a plan from today on.`,
      ),
    );
  const last = addDays(today, LAST_DAY_AHEAD);
  if (addDays(from, days - 1) > last)
    throw refuse(
      wrong('from', `The plan would end after ${sayDay(last, today)}, the last day that can be booked.`),
    );
}
