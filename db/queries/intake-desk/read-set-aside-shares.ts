import { type Database, rawClient } from '#db/client.ts';

export interface SetAsideRow {
  sender: string;
  month: string;
  /** null: usable */
  reason: string | null;
  n: number;
}

/** More than any vehicle drives in a year: 200,000 km in stretches of 500. */
const MOST_STRETCHES = 400;

/**
 * Readings of the months since a day, usable or by the reason why not, of the vehicles that each sender brought most of
 * in that month. From sums of stretches: the usable ones of a stretch count for the month in which it ends. Only the last
 * stretches of a vehicle are read, so that the cost does not grow with its history.
 */
export function readSetAsideShares(
  db: Database,
  { since, senders }: { since: Date; senders: readonly string[] },
): Promise<SetAsideRow[]> {
  const month = since.toISOString().slice(0, 7);
  return rawClient(db)<SetAsideRow[]>`
    with own as (
      select distinct on (vehicle, month) vehicle, month, sender from (
        select vehicle, to_char(week + 3, 'YYYY-MM') as month, sender, sum(stored) as n
        from sender_weeks where week >= ${since.toISOString().slice(0, 10)}::date - 3 group by 1, 2, 3) sums
      order by vehicle, month, n desc, sender),
    recent as (
      select t.vehicle, t.usable, t.set_aside, to_char(t.last_at, 'YYYY-MM') as month
      from (select distinct vehicle from own) seen cross join lateral (
        select * from stretch_totals s where s.vehicle = seen.vehicle
        order by s.life desc, s.stretch desc limit ${MOST_STRETCHES}) t
      where t.last_at >= ${since}),
    counted as (
      select vehicle, month, null as reason, sum(usable) as n from recent group by 1, 2
      union all
      select vehicle, by_month.key, by_reason.key, sum(by_reason.value::int)
      from recent, jsonb_each(set_aside) as by_month, jsonb_each_text(by_month.value) as by_reason
      where by_month.key >= ${month}
      group by 1, 2, 3)
    select own.sender, own.month, counted.reason, sum(counted.n)::int as n
    from counted join own on own.vehicle = counted.vehicle and own.month = counted.month
    where own.sender in (select jsonb_array_elements_text(${JSON.stringify(senders)}::text::jsonb))
    group by 1, 2, 3 order by 1, 2, 3`;
}
