import { type Database, rawClient } from '#db/client.ts';

export interface GatewayRow {
  sender: string;
  lastAt: Date;
  /** of the last fifty intervals between deliveries, s; null where there are fewer than four */
  usualS: number | null;
  longS: number | null;
  received: number;
  stored: number;
  refused: number;
  vehicles: number;
}

const INTERVALS = 50;

/**
 * What is known of senders: their last deliveries, the last seven days, the vehicles of the four weeks before
 * the last one. Each is read
 * by its index, however long the history. `longS` is an interval that one in twenty passes.
 */
export function listGateways(db: Database, senders: readonly string[], now: Date): Promise<GatewayRow[]> {
  return rawClient(db)<GatewayRow[]>`
    select s.sender, last.at as "lastAt", usual.median as "usualS", usual.long as "longS",
      week.received, week.stored, week.refused, brought.vehicles
    from jsonb_array_elements_text(${JSON.stringify(senders)}::text::jsonb) as s(sender)
    cross join lateral (
      select max(at) as at from (
        select at from receipts r where r.sender = s.sender order by at desc limit 1) newest) last
    cross join lateral (
      select
        case when count(gap) >= 4 then percentile_cont(0.5) within group (order by gap) end as median,
        case when count(gap) >= 4 then percentile_disc(0.95) within group (order by gap) end as long
      from (
        select extract(epoch from at - lag(at) over (order by at))::float8 as gap from (
          select at from receipts r where r.sender = s.sender order by at desc limit ${INTERVALS + 1}) few) gaps
    ) usual
    cross join lateral (
      select coalesce(sum(received), 0)::int as received, coalesce(sum(stored), 0)::int as stored,
        coalesce(sum(refused), 0)::int as refused
      from receipts r where r.sender = s.sender and r.at > ${now}::timestamptz - interval '7 days') week
    cross join lateral (
      select count(distinct w.vehicle)::int as vehicles from sender_weeks w
      where w.sender = s.sender and w.week > (last.at - interval '35 days')::date) brought
    where last.at is not null`;
}

export interface QuietVehicleRow {
  vehicle: string;
  sender: string;
  lastReadingAt: Date;
  days: number;
  atShop: boolean;
  total: number;
}

/**
 * Vehicles without a reading for so many days, though whoever brought most of their last weeks has brought others since.
 * Those that have been silent for over half a year are not news any more.
 */
export function listQuietVehicles(
  db: Database,
  {
    now,
    quietDays,
    forgottenDays,
    limit,
  }: { now: Date; quietDays: number; forgottenDays: number; limit: number },
): Promise<QuietVehicleRow[]> {
  return rawClient(db)<QuietVehicleRow[]>`
    with newest as (
      select w.sender, max(r.last_at) as at
      from sender_weeks w join reading_spans r on r.vehicle = w.vehicle
      where w.week >= (${now}::timestamptz - make_interval(days => ${forgottenDays}))::date
      group by w.sender)
    select v.unit as vehicle, own.sender, r.last_at as "lastReadingAt",
      extract(epoch from newest.at - r.last_at)::float8 / 86400 as days,
      (exists (select from shop_vehicles s where s.vehicle = v.key and s.ended_at is null)
        or exists (select from packets p where p.vehicle = v.key and p.state = 'open')) as "atShop",
      count(*) over ()::int as total
    from vehicles v join reading_spans r on r.vehicle = v.key
    cross join lateral (
      select w.sender from sender_weeks w
      where w.vehicle = v.key and w.week > r.last_at::date - 28
      group by w.sender order by sum(w.stored) desc, w.sender limit 1) own
    join newest on newest.sender = own.sender
    where not v.retired
      and r.last_at < newest.at - make_interval(days => ${quietDays})
      and r.last_at > newest.at - make_interval(days => ${forgottenDays})
    order by r.last_at, v.unit limit ${limit}`;
}

/**
 * Since when it is counted who brought what of which vehicle; null where that is from the first delivery on. Receipts
 * have the moment of their end since then too.
 */
export async function findCountedSince(db: Database): Promise<Date | null> {
  const [row] = await rawClient(db)<{ at: Date | null }[]>`
    select (select r.at from receipts r where r.ended_at is not null order by r.at limit 1) as at
    from (select ended_at, complete from receipts order by at limit 1) oldest
    where oldest.complete and oldest.ended_at is null`;
  return row?.at ?? null;
}
