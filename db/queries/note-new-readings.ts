import { type Database, rawClient } from '#db/client.ts';
import type { StoredSpan } from './store-readings.ts';
import { touchVehicles } from './touch-vehicles.ts';

/** Brings the vehicles' first and last reading up to date and leaves their new span to the next assessment. */
export async function noteNewReadings(transaction: Database, spans: readonly StoredSpan[]): Promise<void> {
  if (spans.length === 0) return;
  const client = rawClient(transaction);
  const vehicles = spans.map(({ vehicle }) => vehicle);
  await client`
    insert into reading_spans as known (vehicle, first_at, last_at, odometer_km)
    select vehicle, to_timestamp(from_ms / 1000), to_timestamp(to_ms / 1000), km
    from unnest(${vehicles}::integer[], ${spans.map(({ fromMs }) => fromMs)}::float8[],
      ${spans.map(({ toMs }) => toMs)}::float8[], ${spans.map(({ odometerKm }) => odometerKm)}::float8[])
      as s(vehicle, from_ms, to_ms, km)
    order by vehicle
    on conflict (vehicle) do update set
      first_at = least(known.first_at, excluded.first_at),
      last_at = greatest(known.last_at, excluded.last_at),
      odometer_km = case when known.last_at > excluded.last_at then known.odometer_km else excluded.odometer_km end`;
  await touchVehicles(
    transaction,
    spans.map(({ vehicle, fromMs, toMs }) => ({ vehicle, fromAt: new Date(fromMs), toAt: new Date(toMs) })),
  );
}
