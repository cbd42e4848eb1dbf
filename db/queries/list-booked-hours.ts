import { type Database, rawClient } from '#db/client.ts';

export interface DepotBookedHours {
  depot: string;
  day: string;
  /** from `now` on */
  hours: number;
}

/** Hours for which bays are booked, by depot and day, as far as they are still ahead. */
export const listBookedHours = (db: Database, toDay: string, now: Date): Promise<DepotBookedHours[]> =>
  rawClient(db)<DepotBookedHours[]>`
    select depot, day::text as day, sum(extract(epoch from ends_at - greatest(starts_at, ${now}::timestamptz)) / 3600)::float8 as hours
    from bookings
    where state = 'booked' and ends_at > ${now}::timestamptz and day <= ${toDay}::date
    group by depot, day`;
