import { type Database, rawClient } from '#db/client.ts';

/** Any fixed number, apart from those of other locks. */
const BAY_DAY_LOCK = 730_511_520;

/**
 * Two changes of rows that come to lie upon each other wait for each other and are both there: a circle, which storage
 * ends after a second by giving one up. So who moves a booking has the day of the depot alone, until the end of the
 * transaction; those who add bookings share it, as inserts that give way on conflict make no such circle. What keeps two
 * bookings apart is the exclusion on the table, not this.
 */
export async function lockBayDay(
  transaction: Database,
  { depot, day }: { depot: string; day: string },
  how: 'alone' | 'shared',
): Promise<void> {
  const client = rawClient(transaction);
  const name = `${depot} ${day}`;
  if (how === 'alone') await client`select pg_advisory_xact_lock(${BAY_DAY_LOCK}, hashtext(${name}))`;
  else await client`select pg_advisory_xact_lock_shared(${BAY_DAY_LOCK}, hashtext(${name}))`;
}
