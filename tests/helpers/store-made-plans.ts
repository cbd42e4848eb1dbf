import { assessments } from '#db/schema/analysis.ts';
import { bookings, standings } from '#db/schema/planning.ts';
import { addDays, mondayOf } from '#server/services/calendar/depot-days.ts';
import { momentOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { MADE_TIME_ZONE } from './store-made-places.ts';

const AT_ONCE = 500;

/** Around the list as it is ranked: where each vehicle stood a week ago, and bookings for one in two of those that need one. */
export async function storeMadePlans(ctx: Context, uniform: () => number): Promise<void> {
  await storeWeekAgo(ctx, uniform);
  await book(ctx, uniform);
}

async function storeWeekAgo(ctx: Context, uniform: () => number): Promise<void> {
  const between = (low: number, high: number) => low + (high - low) * uniform();
  const day = addDays(ctx.now().toISOString().slice(0, 10), -7);
  const rows = await ctx.db.select().from(assessments).orderBy(assessments.vehicle);
  const graded = {
    hold: 'book',
    book: 'watch',
    watch: 'steady',
    steady: 'watch',
    unknown: 'unknown',
  } as const;
  const before = rows.map((row) => ({
    vehicle: row.vehicle,
    day,
    rank: Math.max(1, Math.round(row.rank + between(-12, 12))),
    grade: uniform() < 0.1 ? graded[row.grade] : row.grade,
    referenceSlipRpm: row.referenceSlipRpm,
    kmP50: row.kmP50,
    chance: row.chance,
  }));
  for (let from = 0; from < before.length; from += AT_ONCE)
    await ctx.db.insert(standings).values(before.slice(from, from + AT_ONCE));
}

/** One in two of those on hold or to book: most have a day, some wait for one, some were never closed. */
async function book(ctx: Context, uniform: () => number): Promise<void> {
  const due = await ctx.db.select().from(assessments).orderBy(assessments.vehicle);
  const monday = mondayOf(ctx.now().toISOString().slice(0, 10));
  const chosen = due.filter(({ grade }) => (grade === 'hold' || grade === 'book') && uniform() < 0.5);
  const stamp = { createdAt: ctx.now(), createdBy: 'made', changedAt: ctx.now(), changedBy: 'made' };
  const rows = chosen.map(({ vehicle }, i) => {
    const depot = `depot-${i % 10}`;
    if (i % 8 === 7)
      return { vehicle, state: 'put_off' as const, depot, reason: 'waits for a part', ...stamp };
    const slot = Math.floor(i / 10);
    // Two bays, one booking a weekday each; every eighth is over.
    const day =
      i % 8 === 3
        ? addDays(monday, -7 - 7 * Math.floor(slot / 10) + (Math.floor(slot / 2) % 5))
        : addDays(monday, 7 + 7 * Math.floor(slot / 10) + (Math.floor(slot / 2) % 5));
    return {
      vehicle,
      state: 'booked' as const,
      depot,
      bay: 1 + (slot % 2),
      day,
      startsAt: momentOf(MADE_TIME_ZONE, day, '09:00'),
      endsAt: momentOf(MADE_TIME_ZONE, day, '12:00'),
      ...stamp,
    };
  });
  for (let from = 0; from < rows.length; from += AT_ONCE)
    await ctx.db.insert(bookings).values(rows.slice(from, from + AT_ONCE));
}
