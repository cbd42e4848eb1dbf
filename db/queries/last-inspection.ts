import { type Placeholder, type SQL, sql } from 'drizzle-orm';
import { vehicles } from '#db/schema/fleet.ts';
import { urgency } from './urgency.ts';

/** An inspection speaks for its vehicle for so long. Own choice. */
const INSPECTED_MS = 14 * 86_400_000;

/**
 * Day of the last inspection of a vehicle that still speaks for it: done within the last two weeks, and the vehicle not
 * graded worse since; or the word of a shop that keeps the list calm about it. Null where there is none.
 */
export const inspectedOn = (now: Date): SQL<string | null> => inspectedSince(earliestInspection(now));

/** Before this, an inspection speaks no more. */
export const earliestInspection = (now: Date): Date => new Date(now.getTime() - INSPECTED_MS);

export const inspectedSince = (earliest: Date | Placeholder): SQL<string | null> => sql<string | null>`(
  select day from (
    select b.day::text as day, b.ends_at as at from bookings b
    where b.vehicle = ${vehicles.key} and b.state = 'done' and b.ends_at > ${earliest}
      and ${notWorseSince(sql`least(b.ends_at, b.changed_at)`)}
    union all
    select (p.work_at at time zone coalesce(d.time_zone, 'UTC'))::date::text, p.work_at
    from packets p left join depots d on d.id = p.depot
    where p.vehicle = ${vehicles.key} and p.state = 'closed'
      and (p.work_at > ${earliest} and ${notWorseSince(sql`p.closed_at`)} or exists (
        select from assessments a where a.vehicle = p.vehicle and a.calm_packet = p.id))) inspected
  order by at desc limit 1)`;

const notWorseSince = (at: SQL): SQL => sql`not exists (
      select from grade_changes g
      where g.vehicle = ${vehicles.key} and g.at > ${at}
        and ${urgency(sql`g.to_grade`)} > ${urgency(sql`g.from_grade`)})`;
