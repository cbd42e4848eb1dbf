import { type Database, rawClient } from '#db/client.ts';

export interface SetAsideRow {
  sender: string;
  month: string;
  /** null: usable */
  reason: string | null;
  n: number;
}

/**
 * Readings of the months since a day, usable or by the reason why not, of the vehicles that each sender brought most of
 * in that month. From sums of stretches: the usable ones of a stretch count for the month in which it ends.
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
      select vehicle, usable, set_aside, to_char(last_at, 'YYYY-MM') as month
      from stretch_totals where last_at >= ${since}),
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
