import { and, eq, exists, gt, inArray, isNull, lte, not, or, type SQL, sql } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/pg-core';
import { assessments } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { bookings, standings } from '#db/schema/planning.ts';
import { containsText } from './contains-text.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';
import { CLEAR_RISE, standingOfWeekBefore } from './standings.ts';
import { urgency } from './urgency.ts';

export interface ListFilter {
  depot?: string | undefined;
  platform?: string | undefined;
  /** vehicles of which this is not said */
  lacks?: 'depot' | 'platform' | 'both' | undefined;
  grades?: readonly ('hold' | 'book' | 'watch' | 'steady' | 'unknown')[] | undefined;
  /** part of the unit number */
  q?: string | undefined;
  booking?: 'none' | 'any' | 'open' | 'put_off' | 'past' | undefined;
  changed?: 'worse' | 'better' | 'any' | undefined;
  /** whose list it is */
  sight: Sight;
}

/** What a filter lets through, as a condition on assessments joined with their vehicles. */
export function passes(filter: ListFilter, now: Date): SQL | undefined {
  const { depot, platform, lacks, grades, q, booking, changed, sight } = filter;
  return and(
    eq(vehicles.retired, false),
    seenBy(sight),
    depot === undefined ? undefined : eq(vehicles.depot, depot),
    platform === undefined ? undefined : eq(vehicles.platform, platform),
    lacks === 'depot' || lacks === 'both' ? isNull(vehicles.depot) : undefined,
    lacks === 'platform' || lacks === 'both' ? isNull(vehicles.platform) : undefined,
    grades === undefined ? undefined : inArray(assessments.grade, [...grades]),
    q === undefined ? undefined : containsText(vehicles.unit, q),
    booking === undefined ? undefined : hasBooking(booking, now),
    changed === undefined ? undefined : hasChanged(changed, now),
  );
}

const query = new QueryBuilder();
const found = sql`1`;

/** A condition on a vehicle's open booking. */
export function hasBooking(kind: NonNullable<ListFilter['booking']>, now: Date): SQL {
  const which = {
    none: undefined,
    any: undefined,
    open: and(eq(bookings.state, 'booked'), gt(bookings.endsAt, now)),
    put_off: eq(bookings.state, 'put_off'),
    past: and(eq(bookings.state, 'booked'), lte(bookings.endsAt, now)),
  }[kind];
  const there = exists(query.select({ found }).from(bookings).where(and(openBooking, which)));
  return kind === 'none' ? not(there) : there;
}

function hasChanged(kind: NonNullable<ListFilter['changed']>, now: Date): SQL {
  const [is, was] = [urgency(assessments.grade), urgency(standings.grade)];
  const drifts = and(eq(standings.grade, assessments.grade), inArray(assessments.grade, ['book', 'watch']));
  const rise = sql`${assessments.chance} - ${standings.chance}`;
  const how = {
    worse: or(sql`${is} > ${was}`, and(drifts, sql`${rise} >= ${CLEAR_RISE}::float8`)),
    better: or(
      and(sql`${is} < ${was}`, not(eq(assessments.grade, 'unknown'))),
      and(drifts, sql`${rise} <= ${-CLEAR_RISE}::float8`),
    ),
    any: sql`${assessments.grade} <> ${standings.grade}`,
  }[kind];
  return exists(
    query
      .select({ found })
      .from(standings)
      .where(and(standingOfWeekBefore(now), how)),
  );
}
