import { type Database, rawClient } from '#db/client.ts';

export interface TouchedSpan {
  vehicle: number;
  fromAt: Date;
  toAt: Date;
}

/** Whoever changes vehicles locks them first, by their keys in rising order, so that nobody waits in a circle. */
export async function lockVehicles(transaction: Database, keys: readonly number[]): Promise<void> {
  await rawClient(transaction)`
    select key from vehicles
    where key in (select jsonb_array_elements_text(${JSON.stringify(keys)}::text::jsonb)::integer)
    order by key for no key update`;
}

/** Widens the span of time over which the next assessment builds these vehicles' stretches again. */
export async function touchVehicles(transaction: Database, spans: readonly TouchedSpan[]): Promise<void> {
  if (spans.length === 0) return;
  await rawClient(transaction)`
    insert into touched_vehicles as t (vehicle, from_at, to_at)
    select vehicle, to_timestamp(from_ms / 1000), to_timestamp(to_ms / 1000)
    from unnest(${spans.map(({ vehicle }) => vehicle)}::integer[],
      ${spans.map(({ fromAt }) => fromAt.getTime())}::float8[], ${spans.map(({ toAt }) => toAt.getTime())}::float8[])
      as s(vehicle, from_ms, to_ms)
    order by vehicle
    on conflict (vehicle) do update set
      from_at = least(t.from_at, excluded.from_at),
      to_at = greatest(t.to_at, excluded.to_at)`;
}
