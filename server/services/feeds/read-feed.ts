import { and, eq } from 'drizzle-orm';
import { listBookingRows } from '#db/queries/list-bookings.ts';
import { depots } from '#db/schema/fleet.ts';
import { depotFeeds } from '#db/schema/planning.ts';
import { SlipdriftError } from '#server/errors.ts';
import { addDays } from '#server/services/calendar/depot-days.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { digestOf } from '#server/services/keys/key-text.ts';
import { readCalendarId } from './read-calendar-id.ts';
import { writeCalendar } from './write-calendar.ts';

const DAYS_BACK = 30;
const USE_NOTED_EVERY_MS = 3_600_000;

/** The calendar at a secret address. `file` is the last part of the address: the secret with .ics behind it. */
export async function readFeed(ctx: Context, file: string, publicUrl: string | null): Promise<string> {
  // Found by its digest, so that neither time nor words tell how much of a secret is right, or in what it differs.
  const digest = digestOf(file.endsWith('.ics') ? file.slice(0, -4) : file);
  const [feed] = await ctx.db
    .select({ depot: depots, usedAt: depotFeeds.usedAt })
    .from(depotFeeds)
    .innerJoin(depots, eq(depots.id, depotFeeds.depot))
    .where(eq(depotFeeds.digest, digest));
  if (feed === undefined)
    throw new SlipdriftError(
      'not_found',
      'There is no calendar at this address, or no longer. Ask a planner of the depot for the one of now.',
    );
  const { depot, usedAt } = feed;
  const now = ctx.now();
  const [rows, book, calendarId] = await Promise.all([
    listBookingRows(ctx.db, {
      ofDepots: null,
      at: [depot.id],
      states: ['booked', 'done'],
      fromDay: addDays(localOf(depot.timeZone, now).day, -DAYS_BACK),
    }),
    readCodeBook(ctx.db),
    readCalendarId(ctx),
  ]);
  if (usedAt === null || Math.abs(now.getTime() - usedAt.getTime()) >= USE_NOTED_EVERY_MS)
    await ctx.db
      .update(depotFeeds)
      .set({ usedAt: now })
      .where(and(eq(depotFeeds.depot, depot.id), eq(depotFeeds.digest, digest)));
  return writeCalendar(depot, rows, { book, calendarId, publicUrl });
}
