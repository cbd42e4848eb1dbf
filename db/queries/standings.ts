import { and, eq, max, type Placeholder, sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { standings } from '#db/schema/planning.ts';

const WEEK_MS = 7 * 86_400_000;
/** Longer than any screen looks back. */
const KEPT_MS = 60 * 86_400_000;

/**
 * How much the chance of reaching the limit rose within a week where a vehicle of the same grade, book or watch, got
 * worse. Own choice: one that drifts at its usual rate gains less in most weeks. Rank says nothing: it moves when others
 * move.
 */
export const CLEAR_RISE = 0.1;

const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** Joins where a vehicle stood a week before: at the newest day of which there are standings, a week old or older. */
export const standingOfWeekBefore = (now: Date) => standingUpTo(weekBefore(now));

/** The day a week before. */
export const weekBefore = (now: Date): string => dayOf(now.getTime() - WEEK_MS);

/** Joins where a vehicle stood at the newest day up to this one of which there are standings. */
export const standingUpTo = (day: string | Placeholder) =>
  and(
    eq(standings.vehicle, vehicles.key),
    eq(standings.day, sql`(select max(day) from standings where day <= ${day}::date)`),
  );

/** The day of those standings; null where there are none that old. */
export async function findStandingsDay(db: Database, now: Date): Promise<string | null> {
  const [row] = await db
    .select({ day: max(standings.day) })
    .from(standings)
    .where(sql`${standings.day} <= ${weekBefore(now)}::date`);
  return row?.day ?? null;
}

/** Writes down where every vehicle stands, the first time on a day, and forgets what is long past. */
export async function storeStandings(db: Database, now: Date): Promise<void> {
  const client = rawClient(db);
  const today = dayOf(now.getTime());
  const [stored] = await client`select from standings where day = ${today} limit 1`;
  if (stored !== undefined) return;
  await client`
    insert into standings (vehicle, day, rank, grade, reference_slip_rpm, km_p50, chance)
    select a.vehicle, ${today}::date, a.rank, a.grade, a.reference_slip_rpm, a.km_p50, a.chance
    from assessments a join vehicles v on v.key = a.vehicle
    where not v.retired and a.chance is not null
    on conflict do nothing`;
  await client`delete from standings where day < ${dayOf(now.getTime() - KEPT_MS)}`;
}
