import { type Database, rawClient } from '#db/client.ts';
import type { StoredSpan } from './store-readings.ts';
import { touchVehicles } from './touch-vehicles.ts';

/** Brings the vehicles' first and last reading up to date and leaves their new span to the next assessment. */
export async function noteNewReadings(transaction: Database, spans: readonly StoredSpan[]): Promise<void> {
  if (spans.length === 0) return;
  const client = rawClient(transaction);
  await client`
    insert into reading_spans as known (vehicle, first_at, last_at, odometer_km)
    select vehicle, "fromAt", "toAt", "odometerKm" from jsonb_to_recordset(${JSON.stringify(spans)}::text::jsonb)
      as s(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz, "odometerKm" double precision)
    order by vehicle
    on conflict (vehicle) do update set
      first_at = least(known.first_at, excluded.first_at),
      last_at = greatest(known.last_at, excluded.last_at),
      odometer_km = case when known.last_at > excluded.last_at then known.odometer_km else excluded.odometer_km end`;
  await touchVehicles(transaction, spans);
}
