import { type SQL, sql } from 'drizzle-orm';
import { vehicles } from '#db/schema/fleet.ts';
import { urgency } from './urgency.ts';

/** An inspection speaks for its vehicle for so long. Own choice. */
const INSPECTED_MS = 14 * 86_400_000;

/**
 * Day of the last inspection of a vehicle that still speaks for it: done within the last two weeks, and the vehicle not
 * graded worse since. Null where there is none.
 */
export const inspectedOn = (now: Date): SQL<string | null> => sql<string | null>`(
  select b.day::text from bookings b
  where b.vehicle = ${vehicles.key} and b.state = 'done' and b.ends_at > ${new Date(now.getTime() - INSPECTED_MS)}
    and not exists (
      select from grade_changes g
      where g.vehicle = b.vehicle and g.at > least(b.ends_at, b.changed_at)
        and ${urgency(sql`g.to_grade`)} > ${urgency(sql`g.from_grade`)})
  order by b.ends_at desc limit 1)`;
